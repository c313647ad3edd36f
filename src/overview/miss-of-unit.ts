import type { Check, Miss, WayOut } from '../keep/check/check.ts';
import {
  distinctNotes,
  isApart,
  type AskedNotes,
  type NoteCount,
} from '../keep/check/distinct-notes.ts';
import { isPlain } from '../keep/check/is-plain.ts';
import { joinedBars } from '../keep/check/joined-bars.ts';
import type { Witness } from '../keep/plan.ts';
import { doubtNames } from '../terms/doubt.ts';
import { numbersIn, toRanges, type Range } from '../terms/range.ts';
import type { StepsOf } from './missed-steps.ts';
import type { OverviewMiss } from './overview-proof.ts';

/** Places that are told of one unit, as many as of one zone. */
const mostPlaces = 3;

export type Order = (a: Witness, b: Witness) => number;

/**
 * What a player loads together, as one miss. What notes ask for plainly and what only a doubt asks for
 * is told apart: keys, places and bars are those of plain notes where there are any.
 */
export const missOfUnit = (
  unit: readonly [Miss, ...Miss[]],
  order: Order,
  { notes, doubtfulNotes }: Check['total'],
  stepsOf: StepsOf,
): OverviewMiss => {
  const [{ instrument, machine, copy, bytes, fits }] = unit;
  const asked = onceEach(unit);
  const plain = distinctNotes(asked.filter(isPlain), notes);
  const further = furtherNotes(asked, notes + doubtfulNotes);
  const certain = unit.filter(isPlain);
  const inDoubt = unit.filter((miss) => !isPlain(miss));
  const first = certain.length > 0 ? certain : inDoubt;
  const certainZones = new Set(certain.map(({ zone }) => zone));
  const doubts = new Set(inDoubt.flatMap((miss) => miss.doubts.flat()));
  return {
    instrument,
    machine,
    copy,
    articulations: [...new Set(unit.flatMap(({ articulations }) => articulations))],
    zones: certainZones.size,
    doubtfulZones: new Set(inDoubt.flatMap(({ zone }) => (certainZones.has(zone) ? [] : [zone])))
      .size,
    doubts: doubtNames.filter((name) => doubts.has(name)),
    notes: plain.notes,
    doubtfulNotes: further.notes,
    notesAtMost: plain.atMost,
    doubtfulNotesAtMost: further.atMost,
    askedBy: askedBy(first),
    keys: toRanges(first.flatMap(({ keys }) => keys.flatMap(numbersIn))),
    velocities: hull(first.flatMap(({ velocities }) => (velocities === null ? [] : [velocities]))),
    places: firstPlaces(
      first.flatMap(({ places }) => places),
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
    bars: joinedBars(certain),
    doubtfulBars: joinedBars(inDoubt),
    steps: [...new Set(unit.flatMap(stepsOf))].sort((a, b) => a - b),
  };
};

const mostWays = 3;

/** A way of very many changes is no way for a person, and long. */
const isShort = (way: WayOut): boolean => way.kind !== 'velocity' || way.changes.length <= 24;

/** What helps one zone of a line alone would be no way out. */
export const inBoth = (a: readonly WayOut[], b: readonly WayOut[]): readonly WayOut[] => {
  const known = new Set(b.map((way) => JSON.stringify(way)));
  return a.filter((way) => known.has(JSON.stringify(way)));
};

/**
 * Notes that ask for some of the zones in doubt. What only a doubt asks for has them as its own. Of what
 * is asked for plainly too it is not known which keys and velocities they have, so that they may be any
 * of the others.
 *
 * @param most all notes of the check: what asks for this in doubt may ask for something else plainly
 */
const furtherNotes = (asked: readonly Miss[], most: number): NoteCount => {
  const certain = asked.filter(isPlain);
  const cues = Object.assign({}, ...asked.map((miss) => miss.cues)) as Miss['cues'];
  const ofCertain = certain.map(({ copy, doubtfulNotes }): AskedNotes => ({
    ...{ copy, notes: doubtfulNotes, cues, keys: [], velocities: null },
  }));
  const further = [...ofCertain, ...asked.filter((miss) => !isPlain(miss))];
  const { notes, atMost } = distinctNotes(further, most);
  // A note that asks for one zone plainly and for another in doubt is none of the further ones.
  const mayBePlain = (one: AskedNotes, i: number): boolean =>
    one.notes > 0 &&
    certain.some((other, at) => at !== i && other.notes > 0 && !isApart(other, one));
  return { notes, atMost: atMost || further.some(mayBePlain) };
};

/** What cuts others short counts as no notes, and what a controller sets off has no key. */
const askedBy = (misses: readonly Miss[]): OverviewMiss['askedBy'] => {
  const counted = misses.filter(({ notes }) => notes > 0);
  if (counted.length === 0) return 'cuts';
  return counted.every(({ keys }) => keys.length === 0) ? 'controllers' : 'notes';
};

/**
 * Takes and microphones are asked for by the same notes: one of them stands for all. What is asked for
 * in doubt alone does not stand for what is asked for plainly, whichever comes first.
 */
const onceEach = (unit: readonly Miss[]): readonly Miss[] => {
  const seen = new Map<string, Miss>();
  for (const miss of unit) {
    const { copy, notes, doubtfulNotes, cues, keys, velocities, places } = miss;
    const asks = [copy, notes, doubtfulNotes, cues, keys, velocities, places];
    const key = JSON.stringify([isPlain(miss), ...asks]);
    if (!seen.has(key)) seen.set(key, miss);
  }
  return [...seen.values()];
};

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
