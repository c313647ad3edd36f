import type { ZonedKeyMapRow } from '../keep/key-map/make-key-map.ts';
import { toRanges, type Range } from '../terms/range.ts';
import type { Playable, PlayableStretch } from './overview.ts';
import { keyCount, rowAt, silentRows, type PlayableContext, type RowAt } from './playable-rows.ts';

type By = PlayableStretch['dynamics'][number]['by'];

/**
 * What can still be written for an articulation: its notes, whatever their releases do. Where
 * copies have zones of their own, for one of them.
 */
export const playableOf = (rows: readonly ZonedKeyMapRow[], context: PlayableContext): Playable => {
  const noted = (all: readonly ZonedKeyMapRow[]): readonly ZonedKeyMapRow[] =>
    all.filter(({ event }) => event === 'note');
  const [own, others] = [noted(rows), noted(context.everywhere ?? [])];
  const notes = own.map((row) => rowAt(row, context));
  const beside = [
    ...others.map((row) => rowAt(row, context)),
    ...silentRows([...own, ...others], context),
  ];
  const keysWhere = (of: (row: RowAt) => Uint8Array): readonly number[] =>
    keys.filter((key) => notes.some((row) => of(row)[key] === 1));
  const all = keysWhere(({ there }) => there);
  if (all.length === 0) return { state: stateWithoutNotes(rows), all: [], stretches: [] };
  const sounding = keysWhere(({ stays }) => stays);
  const isWhole =
    keysWhere(({ dropped }) => dropped).length === 0 &&
    !sounding.some((key) => beside.some(({ dropped }) => dropped[key] === 1));
  return {
    state: sounding.length === 0 ? 'gone' : isWhole ? 'whole' : 'part',
    all: toRanges(all),
    stretches: stretchesOf(sounding, notes, beside),
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

/** Keys with the same room, told once. */
const stretchesOf = (
  sounding: readonly number[],
  own: readonly RowAt[],
  beside: readonly RowAt[],
): readonly PlayableStretch[] => {
  const rows = [...own, ...beside];
  const known = new Map<string, PlayableStretch['dynamics']>();
  const stretches = new Map<
    string,
    { readonly keys: number[]; readonly dynamics: PlayableStretch['dynamics'] }
  >();
  for (const key of sounding) {
    // Of what starts beside it only that counts which is missed.
    const here = rows.flatMap((row, r) =>
      (r < own.length ? row.there : row.dropped)[key] === 1 ? [r] : [],
    );
    const same = here.map((r) => (rows[r]!.dropped[key] === 1 ? `-${String(r)}` : r)).join();
    let dynamics = known.get(same);
    if (dynamics === undefined) {
      dynamics = dynamicsOf(
        here.filter((r) => r < own.length).map((r) => rows[r]!),
        here.filter((r) => r >= own.length).map((r) => rows[r]!),
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

const dynamicsOf = (
  own: readonly RowAt[],
  beside: readonly RowAt[],
  key: number,
): PlayableStretch['dynamics'] => {
  const rows = [...own, ...beside];
  const numbers = rows.flatMap(({ controllers }) => controllers.map(({ number }) => number));
  const all: readonly By[] = ['velocity', ...[...new Set(numbers)].sort((a, b) => a - b)];
  const choosing = all.filter((by) => new Set(rows.map((row) => rangeOn(by, row).join())).size > 1);
  if (choosing.length > 0) return choosing.map((by) => roomOn(by, own, beside, key));
  // Nothing chooses, so what was dropped of the one layer is asked for by every note.
  const isWhole = rows.every(({ dropped }) => dropped[key] === 0);
  return isWhole ? [] : [{ by: 'velocity', safe: [], all: hull('velocity', own) }];
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
  own: readonly RowAt[],
  beside: readonly RowAt[],
  key: number,
): PlayableStretch['dynamics'][number] => {
  const all = hull(by, own);
  const safe: number[] = [];
  for (let value = all[0]; value <= all[1]; value++) {
    const isAsked = (row: RowAt): boolean => {
      const [lo, hi] = rangeOn(by, row);
      return lo <= value && value <= hi;
    };
    const asked = [...own, ...beside].filter(isAsked);
    if (own.some(isAsked) && asked.every(({ dropped }) => dropped[key] === 0)) safe.push(value);
  }
  return { by, safe: toRanges(safe), all };
};
