import { fold } from '../notation/fold.ts';
import { articulationAt } from './articulation-words.ts';
import { longestSpelled } from './name-patterns.ts';
import { trackWords, type TrackWord } from './track-words.ts';

/** What the name of a track says. */
export interface TrackName {
  /** What similar names have in common, folded: no numbers, desks, articulations, switch words. */
  readonly key: string;
  readonly articulation: NamedArticulation | null;
  /** For a track that by its name holds switches: the rest of the name, folded. Else null. */
  readonly switchesOf: string | null;
  /** True for a click, a metronome or a guide, and nothing else beside it. */
  readonly isClick: boolean;
  /** True when one of them is mentioned. */
  readonly mentionsClick: boolean;
}

export interface NamedArticulation {
  /** As the draft calls it: `legato`. */
  readonly name: string;
  /** Where it stands in the name, in UTF-16 units; null where it stands in several places. */
  readonly span: readonly [start: number, end: number] | null;
}

// The words below: common practice, from memory.
const deskWords = new Set(
  'desk desks dsk player players plr div divisi no nr i ii iii iv'.split(' '),
);
const ordinals = new Set(['st', 'nd', 'rd', 'th']);
const switchWords = new Set('ks keyswitch keyswitches keysw switch switches sw'.split(' '));
const clickWords = new Set('click clicks clk clicktrack metronome guide guides'.split(' '));
const besideClick = new Set('track tracks trk count in metro tempo beat beats bar bars'.split(' '));

type Kind = 'name' | 'number' | 'switch' | 'articulation';

/** `1`, `a4`, `1B`, `2nd`, `desk`, and a Roman numeral that does not come first. */
const isNumberAt = (words: readonly TrackWord[], at: number): boolean => {
  const { text, start, end, isNumber } = words[at]!;
  if (isNumber) return true;
  const before = words[at - 1];
  if (before === undefined) return false;
  const after = words[at + 1];
  if (text === 'a' && after?.isNumber === true && after.start - end <= 1) return true;
  const isAfterFigure = before.isNumber && before.end === start;
  return isAfterFigure ? /^[a-h]$/.test(text) || ordinals.has(text) : deskWords.has(text);
};

const isSwitchAt = (words: readonly TrackWord[], at: number): boolean => {
  const { text } = words[at]!;
  return switchWords.has(text) || (text === 'key' && switchWords.has(words[at + 1]?.text ?? ''));
};

interface Run {
  readonly names: string[];
  readonly first: number;
  last: number;
}

/** Articulations by the words that say them; neighbours are one: `sord trem`. */
const runsOf = (texts: readonly string[]): readonly Run[] => {
  const runs: Run[] = [];
  for (let at = 0; at < texts.length; at += 1) {
    const found = articulationAt(texts, at);
    if (found === null) continue;
    const last = at + found.words - 1;
    const before = runs.at(-1);
    if (before?.last === at - 1) {
      before.names.push(found.name);
      before.last = last;
    } else runs.push({ names: [found.name], first: at, last });
    at = last;
  }
  return runs;
};

const kindsOf = (words: readonly TrackWord[], runs: readonly Run[]): readonly Kind[] => {
  const kinds = words.map((_, at): Kind => {
    if (isSwitchAt(words, at)) return 'switch';
    return isNumberAt(words, at) ? 'number' : 'name';
  });
  for (const { first, last } of runs) kinds.fill('articulation', first, last + 1);
  return kinds;
};

const joined = (words: readonly TrackWord[]): string => words.map(({ text }) => text).join(' ');

/**
 * Reads a track's name as the trade writes them (common practice, from memory): which instrument,
 * which number or desk, which articulation. A name of which nothing would remain is taken whole.
 *
 * @example readTrackName('Vln 1 leg') // key 'vln', articulation legato, which stands at 6 to 9
 */
export const readTrackName = (name: string): TrackName => {
  const words = name.length > longestSpelled ? [] : trackWords(name);
  const runs = runsOf(words.map(({ text }) => text));
  const kinds = kindsOf(words, runs);
  const rest = words.filter((_, at) => kinds[at] === 'name');
  if (rest.length === 0) {
    const [key, no] = [fold(name), false];
    return { key, articulation: null, switchesOf: null, isClick: no, mentionsClick: no };
  }
  const mentionsClick = rest.some(({ text }) => clickWords.has(text));
  const [run] = runs;
  const articulation = run && {
    name: runs.flatMap(({ names }) => names).join(' '),
    span: runs.length === 1 ? ([words[run.first]!.start, words[run.last]!.end] as const) : null,
  };
  return {
    key: joined(rest),
    articulation: articulation ?? null,
    switchesOf: kinds.includes('switch')
      ? joined(words.filter((_, at) => kinds[at] !== 'switch'))
      : null,
    isClick:
      mentionsClick && rest.every(({ text }) => clickWords.has(text) || besideClick.has(text)),
    mentionsClick,
  };
};
