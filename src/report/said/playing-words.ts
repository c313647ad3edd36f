import type { OverviewArticulation } from '../../overview/overview-instrument.ts';
import type { PlayableStretch } from '../../overview/overview-playable.ts';
import { keyRangeLabel } from '../../terms/key.ts';
import { numbersIn, toRanges, type Range } from '../../terms/range.ts';
import { formatCount, plural } from '../format.ts';
import { dynamicsWords, rangeText } from './dynamics.ts';

/** Articulations of which the same may be written. */
export interface PlayingLine {
  readonly names: readonly string[];
  /**
   * What may be written: keys and dynamics, a text for each stretch; last, where keys are gone, of which
   * they were.
   */
  readonly texts: readonly string[];
}

/** What an instrument can still do. */
export interface PlayingWords {
  readonly lines: readonly PlayingLine[];
  /** Articulations of which nothing is left to write. */
  readonly gone: readonly string[];
}

/** Ranges that are named one by one, and stretches with dynamics of their own. */
const mostRanges = 6;
const mostStretches = 8;

const keysIn = (ranges: readonly Range[]): number =>
  ranges.reduce((sum, [lo, hi]) => sum + hi - lo + 1, 0);

/** From the lowest of them to the highest. */
const around = (ranges: readonly Range[], middleC: number): string =>
  keyRangeLabel([ranges[0]?.[0] ?? 0, ranges.at(-1)?.[1] ?? 0], middleC);

/**
 * Keys by name and number; where they lie in many pieces, how many there are and within which.
 *
 * @example keysWords([[43, 76]], 4) // 'G2-E5 (43-76)'
 */
export const keysWords = (ranges: readonly Range[], middleC: number): string => {
  if (ranges.length === 0) return 'no key';
  if (ranges.length <= mostRanges) {
    return ranges.map((range) => keyRangeLabel(range, middleC)).join(', ');
  }
  return `${plural(keysIn(ranges), 'key')} within ${around(ranges, middleC)}`;
};

/** The same of all keys that there were. Where many reach as far as these, only how many they are differs. */
const keysOfAll = (ranges: readonly Range[], every: readonly Range[], middleC: number): string => {
  if (keysIn(ranges) >= keysIn(every)) return keysWords(ranges, middleC);
  const [own, all] = [around(ranges, middleC), around(every, middleC)];
  if (ranges.length <= mostRanges || own !== all) return `${keysWords(ranges, middleC)} of ${all}`;
  return `${formatCount(keysIn(ranges))} of ${plural(keysIn(every), 'key')} within ${all}`;
};

/**
 * Keys in a table, each range by its name; where they are very many as numbers, with how many places
 * they are, so that nobody takes the outermost for all between them.
 */
export const keysInTable = (ranges: readonly Range[], middleC: number): string => {
  if (ranges.length === 0) return '';
  if (ranges.length <= mostRanges) return keysWords(ranges, middleC);
  const places = `${formatCount(ranges.length)} places within ${around(ranges, middleC)}`;
  return `${places}: ${ranges.map(rangeText).join(', ')}`;
};

/** All keys of some lists, as few ranges as it takes. */
export const joinKeys = (lists: readonly (readonly Range[])[]): readonly Range[] =>
  toRanges(new Set(lists.flat().flatMap(numbersIn)));

/** null: every dynamic, and nothing is gone of the ends of notes. */
const roomWords = (room: Omit<PlayableStretch, 'keys'>): string | null => {
  const dynamics = dynamicsWords(room);
  return room.releasesGone ? `${dynamics ?? 'every dynamic'}, release sounds gone` : dynamics;
};

/** Stretches of the same dynamics are one. */
const byDynamics = (
  stretches: readonly PlayableStretch[],
): readonly { readonly dynamics: string | null; readonly keys: readonly Range[] }[] => {
  const found = new Map<string | null, (readonly Range[])[]>();
  for (const { keys, ...room } of stretches) {
    const words = roomWords(room);
    const lists = found.get(words);
    if (lists === undefined) found.set(words, [keys]);
    else lists.push(keys);
  }
  return [...found].map(([dynamics, lists]) => ({ dynamics, keys: joinKeys(lists) }));
};

/** Dynamics right behind keys: a name of a dynamic alone could be taken for a key. */
const besideKeys = (dynamics: string | null): string =>
  (dynamics ?? 'every dynamic').replace(/^(?=every )/, 'in ').replace(/^(?=[pmf]{1,3} )/, 'only ');

const whatMayBeWritten = (
  { playable }: OverviewArticulation,
  middleC: number,
): readonly string[] => {
  const { state, all, stretches } = playable;
  if (state === 'whole') return [`${keysWords(all, middleC)}; every dynamic`];
  const parts = byDynamics(stretches);
  const sounding = joinKeys(parts.map(({ keys }) => keys));
  const every = joinKeys([all]);
  const [only] = parts;
  if (parts.length === 1 && only !== undefined) {
    return [`${keysOfAll(only.keys, every, middleC)}; ${only.dynamics ?? 'every dynamic'}`];
  }
  if (parts.length <= mostStretches) {
    const each = parts.map(
      ({ keys, dynamics }) => `${keysWords(keys, middleC)} ${besideKeys(dynamics)}`,
    );
    const isFewer = keysIn(sounding) < keysIn(every);
    return isFewer ? [...each, `no other key of ${around(every, middleC)}`] : each;
  }
  const free = parts.find(({ dynamics }) => dynamics === null);
  const freely = free === undefined ? '' : `, every dynamic at ${plural(keysIn(free.keys), 'key')}`;
  return [`${keysOfAll(sounding, every, middleC)}; in part, by key${freely}`];
};

/** What can still be written for an instrument, in playing words. Articulations that no note starts are not named. */
export const playingWords = (
  articulations: readonly OverviewArticulation[],
  middleC: number,
): PlayingWords => {
  const lines = new Map<string, { readonly names: string[]; readonly texts: readonly string[] }>();
  const gone: string[] = [];
  for (const one of articulations) {
    const { name, playable } = one;
    if (playable.all.length === 0) continue;
    if (playable.state === 'gone') {
      gone.push(name);
      continue;
    }
    const texts = whatMayBeWritten(one, middleC);
    const key = texts.join('; ');
    const line = lines.get(key);
    if (line === undefined) lines.set(key, { names: [name], texts });
    else line.names.push(name);
  }
  return { lines: [...lines.values()], gone };
};
