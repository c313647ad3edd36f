import type { Program } from '../instruments/program.ts';
import { startKeys } from '../keep/key-map/start-keys.ts';
import type { ZonedKeyMapRow, ZonedMember } from '../keep/key-map/make-key-map.ts';
import type { DoubtSet } from '../terms/doubt.ts';
import { toRanges, type Range } from '../terms/range.ts';
import type { Playable, PlayableStretch } from './overview.ts';

/** What is needed of an instrument to say what can still be written for it. */
export interface PlayableContext {
  readonly program: Program;
  /** Whether a start still goes through what stays. */
  readonly isOpen: (start: number) => boolean;
  /** Doubts settled as the plain reading: what starts only through them is not asked for. */
  readonly excluded: DoubtSet;
}

/** What became of a row at each key. */
interface RowAt {
  readonly velocity: Range;
  readonly controllers: ZonedKeyMapRow['controllers'];
  /** By key: something starts there, something of it stays, something of it was dropped. */
  readonly there: Uint8Array;
  readonly stays: Uint8Array;
  readonly dropped: Uint8Array;
}

type By = PlayableStretch['dynamics'][number]['by'];

const keyCount = 128;

/** What can still be written for an articulation: its notes, whatever their releases do. */
export const playableOf = (rows: readonly ZonedKeyMapRow[], context: PlayableContext): Playable => {
  const notes = rows.filter(({ event }) => event === 'note').map((row) => rowAt(row, context));
  const keysWhere = (of: (row: RowAt) => Uint8Array): readonly number[] =>
    keys.filter((key) => notes.some((row) => of(row)[key] === 1));
  const all = keysWhere(({ there }) => there);
  if (all.length === 0) return { state: stateWithoutNotes(rows), all: [], stretches: [] };
  const sounding = keysWhere(({ stays }) => stays);
  const isWhole = keysWhere(({ dropped }) => dropped).length === 0;
  return {
    state: sounding.length === 0 ? 'gone' : isWhole ? 'whole' : 'part',
    all: toRanges(all),
    stretches: stretchesOf(sounding, notes),
  };
};

const keys: readonly number[] = Array.from({ length: keyCount }, (_, key) => key);

/** Releases, or what a controller starts, are all that there is: no note can be written for it. */
const stateWithoutNotes = (rows: readonly ZonedKeyMapRow[]): Playable['state'] => {
  const members = rows.flatMap((row) => row.members);
  const kept = members.filter((member) => member.kept !== null).length;
  if (kept === members.length) return 'whole';
  return kept === 0 ? 'gone' : 'part';
};

const rowAt = (
  { velocity, controllers, members }: ZonedKeyMapRow,
  { program, isOpen, excluded }: PlayableContext,
): RowAt => {
  const [there, stays, dropped] = [0, 1, 2].map(() => new Uint8Array(keyCount)) as [
    Uint8Array,
    Uint8Array,
    Uint8Array,
  ];
  for (const member of members) {
    for (const i of member.starts) {
      const start = program.starts[i]!;
      const range = (start.doubt & excluded) === 0 ? startKeys(program, start) : null;
      if (range === null) continue;
      const isThere = isOpen(i) && soundsFrom(member, start.silent === true);
      there.fill(1, range[0], range[1] + 1);
      (isThere ? stays : dropped).fill(1, range[0], range[1] + 1);
    }
  }
  return { velocity, controllers, there, stays, dropped };
};

/** A zone that stays only to stop others has no sound to start. */
const soundsFrom = ({ kept }: ZonedMember, isSilent: boolean): boolean =>
  kept !== null && (isSilent || !kept.reasons.includes('mutes'));

/** Keys with the same room, told once. */
const stretchesOf = (
  sounding: readonly number[],
  rows: readonly RowAt[],
): readonly PlayableStretch[] => {
  const known = new Map<string, PlayableStretch['dynamics']>();
  const stretches = new Map<
    string,
    { readonly keys: number[]; readonly dynamics: PlayableStretch['dynamics'] }
  >();
  for (const key of sounding) {
    const here = rows.flatMap((row, r) => (row.there[key] === 1 ? [r] : []));
    const same = here.map((r) => (rows[r]!.dropped[key] === 1 ? `-${String(r)}` : r)).join();
    let dynamics = known.get(same);
    if (dynamics === undefined) {
      dynamics = dynamicsOf(
        here.map((r) => rows[r]!),
        key,
      );
      known.set(same, dynamics);
    }
    const text = JSON.stringify(dynamics);
    const stretch = stretches.get(text);
    if (stretch === undefined) stretches.set(text, { keys: [key], dynamics });
    else stretch.keys.push(key);
  }
  return [...stretches.values()].map((one) => ({
    keys: toRanges(one.keys),
    dynamics: one.dynamics,
  }));
};

const dynamicsOf = (rows: readonly RowAt[], key: number): PlayableStretch['dynamics'] => {
  const numbers = rows.flatMap(({ controllers }) => controllers.map(({ number }) => number));
  const all: readonly By[] = ['velocity', ...[...new Set(numbers)].sort((a, b) => a - b)];
  const choosing = all.filter((by) => new Set(rows.map((row) => rangeOn(by, row).join())).size > 1);
  if (choosing.length > 0) return choosing.map((by) => roomOn(by, rows, key));
  // Nothing chooses, so what was dropped of the one layer is asked for by every note.
  const isWhole = rows.every(({ dropped }) => dropped[key] === 0);
  return isWhole ? [] : [{ by: 'velocity', safe: [], all: hull('velocity', rows) }];
};

const anyValue: Range = [0, 127];

/** A row that does not ask for a controller sounds at all of its values. */
const rangeOn = (by: By, { velocity, controllers }: RowAt): Range =>
  by === 'velocity'
    ? velocity
    : (controllers.find(({ number }) => number === by)?.range ?? anyValue);

const hull = (by: By, rows: readonly RowAt[]): Range => {
  const ranges = rows.map((row) => rangeOn(by, row));
  return ranges.reduce(([lo, hi], range) => [Math.min(lo, range[0]), Math.max(hi, range[1])]);
};

const roomOn = (
  by: By,
  rows: readonly RowAt[],
  key: number,
): PlayableStretch['dynamics'][number] => {
  const all = hull(by, rows);
  const safe: number[] = [];
  for (let value = all[0]; value <= all[1]; value++) {
    const asked = rows.filter((row) => {
      const [lo, hi] = rangeOn(by, row);
      return lo <= value && value <= hi;
    });
    if (asked.length > 0 && asked.every(({ dropped }) => dropped[key] === 0)) safe.push(value);
  }
  return { by, safe: toRanges(safe), all };
};
