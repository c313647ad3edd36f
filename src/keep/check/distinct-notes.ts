import { intersect } from '../../terms/range.ts';
import type { Miss } from './check.ts';

/** What misses tell of the notes that ask for them. */
export type AskedNotes = Pick<Miss, 'notes' | 'cues' | 'keys' | 'velocities' | 'copy'>;

/** Notes that ask for any of some misses; `atMost`: no more than these, as some may ask for several. */
export interface NoteCount {
  readonly notes: number;
  readonly atMost: boolean;
}

/**
 * How many different notes ask for some misses. Exact where no note can ask for two of them, or where
 * one of them has all that there can be; else a bound.
 *
 * @param misses each set of notes once, with the count that is meant as `notes`
 * @param most no more notes than these can ask
 */
export const distinctNotes = (misses: readonly AskedNotes[], most: number): NoteCount => {
  const asked = misses.filter(({ notes }) => notes > 0);
  const sum = Math.min(
    most,
    asked.reduce((total, { notes }) => total + notes, 0),
  );
  const least = asked.reduce((largest, { notes }) => Math.max(largest, notes), 0);
  return { notes: sum, atMost: sum > least && !areApart(asked) };
};

/** Beyond so many nobody looks at every pair: a bound will do. */
const mostCompared = 200;

const areApart = (all: readonly AskedNotes[]): boolean =>
  all.length <= mostCompared &&
  all.every((one, i) => all.slice(i + 1).every((other) => isApart(one, other)));

/** Whether no note can ask for both: a note has one cue, copy, key and velocity. */
export const isApart = (a: AskedNotes, b: AskedNotes): boolean =>
  a.copy !== b.copy ||
  !Object.keys(a.cues).some((cue) => Object.hasOwn(b.cues, cue)) ||
  (a.keys.length > 0 &&
    b.keys.length > 0 &&
    !a.keys.some((own) => b.keys.some((other) => intersect(own, other) !== null))) ||
  (a.velocities !== null &&
    b.velocities !== null &&
    intersect(a.velocities, b.velocities) === null);
