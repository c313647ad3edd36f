import type { PartNotes } from '../playback/note-usage.ts';
import type { Range } from '../terms/range.ts';
import type { Seen } from './draft.ts';

/** A part, and the cue that it is in. */
export interface PartOfCue {
  readonly cue: string;
  readonly part: PartNotes;
}

const ascending = (values: Iterable<number>): readonly number[] =>
  [...new Set(values)].sort((a, b) => a - b);

const hull = (ranges: Iterable<Range>): Range | null => {
  let all: Range | null = null;
  for (const [lo, hi] of ranges) {
    all = all === null ? [lo, hi] : [Math.min(all[0], lo), Math.max(all[1], hi)];
  }
  return all;
};

/** The keys of a part without its likely switches. */
const notesOf = ({ keys, likelySwitches }: PartNotes): readonly Range[] => {
  const switches = new Set(likelySwitches);
  return keys.flatMap(([lo, hi]) => {
    let [from, to] = [lo, hi];
    while (from <= to && switches.has(from)) from += 1;
    while (from <= to && switches.has(to)) to -= 1;
    return from <= to ? [[from, to] as const] : [];
  });
};

/** Sums up what parts play. */
export const see = (all: readonly PartOfCue[]): Seen => {
  const parts = all.map(({ part }) => part);
  return {
    cues: new Set(all.flatMap(({ cue, part }) => (part.notes === 0 ? [] : [cue]))).size,
    notes: parts.reduce((sum, { notes }) => sum + notes, 0),
    keys: hull(parts.flatMap(notesOf)),
    velocities: hull(parts.flatMap(({ velocities }) => (velocities === null ? [] : [velocities]))),
    controllers: ascending(
      parts.flatMap(({ controllers }) => controllers.map((one) => one.number)),
    ),
    programs: ascending(parts.flatMap(({ programs }) => programs.map((one) => one.program))),
    ports: ascending(parts.map(({ port }) => port)),
    channels: ascending(parts.map(({ channel }) => channel)),
    likelySwitches: ascending(parts.flatMap(({ likelySwitches }) => likelySwitches)),
  };
};
