import type { BeforeAfter, Trim, TrimmedInstrument } from '../trim/trim.ts';
import { bullets } from './bullets.ts';
import { formatCount, plural } from './format.ts';
import type { Look } from './look.ts';
import { nameInText, nameList } from './name-list.ts';
import { paragraph, type Paragraph } from './paragraph.ts';
import { isCounted } from './trim-rows.ts';
import { isOnWord, isProved } from './trim-verdict.ts';

const amounts = ['zones', 'samples', 'disk', 'memory'] as const;

const sum = (all: readonly BeforeAfter[], when: keyof BeforeAfter): number =>
  all.reduce((total, each) => total + each[when], 0);

/** Some of what rows count is the same in several of them. */
const isShared = ({ instruments, total }: Trim): boolean =>
  amounts.some((of) =>
    (['before', 'after'] as const).some(
      (when) =>
        sum(
          instruments.filter(isCounted).map((one) => one[of]),
          when,
        ) > total[of][when],
    ),
  );

/** How many instruments are named with their places. */
const mostPlaces = 6;

const places = ({ instruments }: Trim, look: Look): readonly Paragraph[] => {
  const own = instruments.filter((one) => one.places > 0).toSorted((a, b) => b.places - a.places);
  if (own.length === 0) return [];
  const all = own.reduce((total, one) => total + one.places, 0);
  const shown = look.details === true ? own : own.slice(0, mostPlaces);
  const named = shown.map((one) => `${nameInText(one.id, look)} ${formatCount(one.places)}`);
  const rest = own.length - shown.length;
  const where = `${named.join(', ')}${rest > 0 ? ` and ${plural(rest, 'more', 'more')}` : ''}`;
  return [
    [
      all === 1
        ? `1 zone only holds a place (${where}): no note reaches it and it makes no sound. It is there`
        : `${plural(all, 'zone')} only hold a place (${where}): no note reaches them and they make no sound. They are there`,
      'so that switches stay switches and controllers do what they did, or so that no other preset answers where one of these is silent.',
    ],
  ];
};

const notWritten = ({ instruments, dryRun }: Trim, look: Look): readonly Paragraph[] => {
  const named = (outcome: TrimmedInstrument['outcome'], text: string): readonly Paragraph[] => {
    const ids = instruments.filter((one) => one.outcome === outcome).map(({ id }) => id);
    const heading = dryRun ? 'Would not be written' : 'Not written';
    return ids.length === 0
      ? []
      : [[{ text: `${heading}, ${text}:`, paint: look.colors.bold }, `${nameList(ids, look)}.`]];
  };
  return [
    ...named('unplayed', 'as nothing of them stays'),
    ...named('unwritable', 'as only a table of their zones is known; unload by hand'),
  ];
};

/** What is not there and what is there without being played, in sentences. */
export const trimNotes = (trim: Trim, look: Look): readonly string[] =>
  [...notWritten(trim, look), ...places(trim, look)].flatMap((each) => paragraph(each, look.width));

/** What was proved and what was not. */
export const trimProof = (trim: Trim, look: Look): readonly string[] => {
  if (trim.proof === null || !isProved(trim)) return [];
  const { cues, zones } = trim.proof;
  const played = cues === 1 ? 'the cue was' : `all ${plural(cues, 'cue')} were`;
  const reached = zones === 1 ? 'the one zone' : `each of the ${plural(zones, 'zone')}`;
  return bullets(
    'What is proved',
    [
      `What was written was read back, and ${played} played through it: ${reached} that notes reach in the full instruments is reached by the same notes.`,
      ...(isOnWord(trim) ? ['What was accepted on your word is not part of that.'] : []),
      `It was made by the keep file with sha256 ${trim.keep.sha256.slice(0, 12)}, and holds for its cues as they are now.`,
      'Nobody has listened to it: play the reel through it once before you rely on it.',
    ].map((sentence) => [sentence]),
    look,
  );
};

/** What the figures rest on. */
export const trimFigures = (trim: Trim, look: Look): readonly string[] =>
  bullets(
    'About these figures',
    [
      `On disk: the bytes of the files, exact${trim.dryRun ? ', as they would be written' : ''}.`,
      'Memory: an estimate with all of an instrument loaded, by the rules of its player, whose display has the last word.',
      ...(isShared(trim)
        ? ['What instruments share counts in each row, and once in the last one.']
        : []),
    ].map((sentence) => [sentence]),
    look,
  );
