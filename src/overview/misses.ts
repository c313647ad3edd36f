import type { Check, Miss, WayOut } from '../keep/check/check.ts';
import { distinctNotes } from '../keep/check/distinct-notes.ts';
import type { PlanMachine, Witness } from '../keep/plan.ts';
import { toRanges, type Range } from '../terms/range.ts';
import type { OverviewMiss } from './overview-proof.ts';

/** Places that are told of one unit, as many as of one zone. */
const mostPlaces = 3;

/**
 * What is missing by what comes back together, in the order in which it is heard first. What the same
 * notes ask for of one instrument is told once.
 */
export const overviewMisses = (
  { misses, proof, total }: Pick<Check, 'misses' | 'proof' | 'total'>,
  machines: readonly PlanMachine[],
): readonly OverviewMiss[] => {
  const units = new Map<string, [Miss, ...Miss[]]>();
  for (const miss of misses) {
    const key = JSON.stringify([miss.instrument, miss.unit]);
    const unit = units.get(key);
    if (unit === undefined) units.set(key, [miss]);
    else unit.push(miss);
  }
  const order = heardFirst(proof.cues.map(({ id }) => id));
  const found = [...units.values()].map((unit) => missOf(unit, order, total));
  const sharesNothing = found.reduce((sum, { bytes }) => sum + bytes, 0) === total.bytes;
  return toldOnce(found, machines, sharesNothing).sort(({ places: [a] }, { places: [b] }) =>
    a === undefined || b === undefined
      ? Number(a === undefined) - Number(b === undefined)
      : order(a, b),
  );
};

/** Units that the same notes ask for become one: several layers, microphones, or players' parts. */
const toldOnce = (
  misses: readonly OverviewMiss[],
  machines: readonly PlanMachine[],
  sharesNothing: boolean,
): OverviewMiss[] => {
  const told = new Map<string, OverviewMiss>();
  for (const miss of misses) {
    const { instrument, machine, copy, notes, doubtfulNotes, keys, velocities, places } = miss;
    const { notesAtMost } = miss;
    const same = [
      ...[instrument, machine, copy, notes, doubtfulNotes, notesAtMost],
      ...[keys, velocities, places],
    ];
    const key = JSON.stringify(same);
    const known = told.get(key);
    if (known === undefined) told.set(key, miss);
    else told.set(key, both(known, miss, machines, sharesNothing));
  }
  return [...told.values()];
};

const both = (
  a: OverviewMiss,
  b: OverviewMiss,
  machines: readonly PlanMachine[],
  sharesNothing: boolean,
): OverviewMiss => {
  const bytes = a.bytes + b.bytes;
  const machine = machines.find(({ id }) => id === a.machine);
  const budget = machine?.budget ?? null;
  // Each may fit alone and both not.
  const isRoom = budget === null || machine!.bytes.high + bytes <= budget;
  return {
    ...a,
    articulations: [...new Set([...a.articulations, ...b.articulations])],
    zones: a.zones + b.zones,
    bytes,
    bytesAtMost: !sharesNothing,
    ways: inBoth(a.ways, b.ways),
    fits: a.fits === null || b.fits === null ? null : a.fits && b.fits && isRoom,
  };
};

type Order = (a: Witness, b: Witness) => number;

const heardFirst =
  (cues: readonly string[]): Order =>
  (a, b) =>
    cues.indexOf(a.cue) - cues.indexOf(b.cue) || a.tick - b.tick || a.track - b.track;

const missOf = (
  unit: readonly [Miss, ...Miss[]],
  order: Order,
  { notes, doubtfulNotes }: Check['total'],
): OverviewMiss => {
  const [{ instrument, machine, copy, bytes, fits }] = unit;
  const asked = onceEach(unit);
  const count = (of: (miss: Miss) => number, most: number) =>
    distinctNotes(
      asked.map((miss) => ({ ...miss, notes: of(miss) })),
      most,
    );
  const plain = count(plainNotes, notes);
  const further = count(furtherNotes, doubtfulNotes);
  return {
    instrument,
    machine,
    copy,
    articulations: [...new Set(unit.flatMap(({ articulations }) => articulations))],
    zones: new Set(unit.map(({ zone }) => zone)).size,
    notes: plain.notes,
    doubtfulNotes: further.notes,
    notesAtMost: plain.atMost || further.atMost,
    keys: toRanges(unit.flatMap(({ keys }) => keys.flatMap(keysIn))),
    velocities: hull(unit.flatMap(({ velocities }) => (velocities === null ? [] : [velocities]))),
    places: firstPlaces(
      unit.flatMap(({ places }) => places),
      order,
    ),
    bytes,
    bytesAtMost: false,
    fits,
    ways: unit
      .map(({ ways }) => ways)
      .reduce(inBoth)
      .filter(isShort)
      .slice(0, mostWays),
  };
};

const mostWays = 3;

/** A way of very many changes is no way for a person, and long. */
const isShort = (way: WayOut): boolean => way.kind !== 'velocity' || way.changes.length <= 24;

/** What helps one zone of a line alone would be no way out. */
const inBoth = (a: readonly WayOut[], b: readonly WayOut[]): readonly WayOut[] => {
  const known = new Set(b.map((way) => JSON.stringify(way)));
  return a.filter((way) => known.has(JSON.stringify(way)));
};

/** What only a doubt asks for has those notes as its own; here they are further ones, as in the total. */
const plainNotes = ({ doubts, notes }: Miss): number => (isPlain(doubts) ? notes : 0);

const furtherNotes = ({ doubts, notes, doubtfulNotes }: Miss): number =>
  isPlain(doubts) ? doubtfulNotes : notes;

const isPlain = (doubts: Miss['doubts']): boolean => doubts.some(({ length }) => length === 0);

/** Takes and microphones are asked for by the same notes: one of them stands for all. */
const onceEach = (unit: readonly Miss[]): readonly Miss[] => {
  const seen = new Map<string, Miss>();
  for (const miss of unit) {
    const { copy, notes, doubtfulNotes, cues, keys, velocities, places } = miss;
    const key = JSON.stringify([copy, notes, doubtfulNotes, cues, keys, velocities, places]);
    if (!seen.has(key)) seen.set(key, miss);
  }
  return [...seen.values()];
};

const keysIn = ([lo, hi]: Range): readonly number[] =>
  Array.from({ length: hi - lo + 1 }, (_, i) => lo + i);

const hull = (ranges: readonly Range[]): Range | null =>
  ranges.length === 0
    ? null
    : [Math.min(...ranges.map(([lo]) => lo)), Math.max(...ranges.map(([, hi]) => hi))];

/** Places are told by their beat: of the notes of a track in one beat the first stands for all. */
const firstPlaces = (places: readonly Witness[], order: Order): readonly Witness[] => {
  const seen = new Set<string>();
  const once = [...places].sort(order).filter(({ cue, track, bar, beat }) => {
    const text = JSON.stringify([cue, track, bar, Math.floor(beat)]);
    return !seen.has(text) && seen.add(text);
  });
  return once.slice(0, mostPlaces);
};
