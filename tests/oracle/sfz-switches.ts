/**
 * Keyswitches that stay in force, in every reading: which keys a region's switch listens to, and what
 * is in force before the first press.
 */
import { doubtBits, plain } from './doubts.ts';
import { isNoteOn, type SfzReel } from './sfz-data.ts';
import { integer, switchKey, type OracleInstrument, type OracleRegion } from './sfz-regions.ts';
import { choosingSignal, none, type Signal } from './sfz-signals.ts';

export type Span = readonly [lowest: number, highest: number];

/** An instrument, and all that one copy of it plays. */
export interface Copy {
  readonly instrument: OracleInstrument;
  readonly reel: SfzReel;
  /** Whether the copy ever chooses an articulation. */
  readonly chooses: boolean;
}

/** How one reading watches for switches. */
interface Watch {
  readonly name: string;
  readonly keys: readonly number[];
  readonly first: number;
  /** The keys that switch the region on. */
  readonly named: Span;
  readonly doubts: number;
}

export interface SwitchTest {
  readonly signal: Signal;
  readonly named: Span;
  readonly doubts: number;
}

const everyKey = Array.from({ length: 128 }, (_, key) => key);

/** The range in which a region says that its switches lie; null: it says nothing. */
export function rangeOf(region: OracleRegion, shifted: boolean): Span | null {
  const lowest = switchKey(region, 'sw_lokey', shifted);
  const highest = switchKey(region, 'sw_hikey', shifted);
  return lowest === undefined && highest === undefined ? null : [lowest ?? 0, highest ?? 127];
}

/** The switches of a region; a range beats a single key; null: it has none. */
export function namedBy(region: OracleRegion, shifted: boolean): Span | null {
  const lowest = switchKey(region, 'sw_lolast', shifted);
  const highest = switchKey(region, 'sw_hilast', shifted);
  if (lowest !== undefined || highest !== undefined) return [lowest ?? 0, highest ?? 127];
  const key = switchKey(region, 'sw_last', shifted);
  return key === undefined ? null : [key, key];
}

/** All keys that some region names as a switch. */
export function switchKeysOf(instrument: OracleInstrument, shifted = true): number[] {
  return namedKeys(instrument.regions, shifted);
}

function namedKeys(regions: readonly OracleRegion[], shifted: boolean): number[] {
  const spans = regions.flatMap((region) => {
    const named = namedBy(region, shifted);
    return named === null ? [] : [named];
  });
  return everyKey.filter((key) => spans.some((span) => within(key, span)));
}

/** The readings of a region's switch; none: it has no switch. */
function watchesOf(instrument: OracleInstrument, region: OracleRegion): Watch[] {
  const named = namedBy(region, true);
  const unshifted = namedBy(region, false);
  if (named === null || unshifted === null) return [];
  const range = rangeOf(region, true);
  const { regions, switchDefaults } = instrument;
  const all = namedKeys(regions, true);
  const plainKeys = keysOf(regions, range, true);

  const watches = [watch('', plainKeys, firstAmong(instrument, plainKeys, true), named, plain)];
  if (range !== null) {
    const alike = regions.filter((other) => sameSpan(rangeOf(other, true), range));
    const keys = namedKeys(alike, true).filter((key) => within(key, range));
    watches.push(watch('', keys, firstAmong(instrument, keys, true), named, doubtBits.engine));
  }
  const last = switchDefaults.at(-1)?.shifted;
  const globalFirst = last !== undefined && all.includes(last) ? last : none;
  watches.push(watch('global ', all, globalFirst, named, doubtBits.engine));
  const apartRange = rangeOf(region, false);
  const apart = [keysOf(regions, apartRange, false)];
  if (apartRange !== null) {
    const alike = regions.filter((other) => sameSpan(rangeOf(other, false), apartRange));
    apart.push(namedKeys(alike, false).filter((key) => within(key, apartRange)));
  }
  for (const keys of apart) {
    watches.push(
      watch('unshifted ', keys, firstAmong(instrument, keys, false), unshifted, doubtBits.engine),
    );
  }
  return watches;
}

function watch(kind: string, keys: number[], first: number, named: Span, doubts: number): Watch {
  return { name: `${kind}switch ${keys.join()}`, keys, first, named, doubts };
}

/** With a range all of its keys, named or not; else what the regions without a range name. */
function keysOf(regions: readonly OracleRegion[], range: Span | null, shifted: boolean): number[] {
  if (range !== null) return everyKey.filter((key) => within(key, range));
  return namedKeys(
    regions.filter((region) => rangeOf(region, shifted) === null),
    shifted,
  );
}

function firstAmong(instrument: OracleInstrument, keys: readonly number[], shifted: boolean) {
  const defaults = instrument.switchDefaults.map((key) => (shifted ? key.shifted : key.unshifted));
  return defaults.findLast((key) => keys.includes(key)) ?? none;
}

/**
 * Whether the copy ever chooses an articulation: a press of a switch, or a program change, that some
 * region asks for. What no region asks for chooses nothing, and neither do regions that nothing can
 * start.
 */
export function copyChooses(
  instrument: OracleInstrument,
  reel: SfzReel,
  matters: (region: OracleRegion) => boolean,
): boolean {
  const regions = instrument.regions.filter(matters);
  const chosen = regions.flatMap((region) =>
    watchesOf(instrument, region).flatMap(({ keys, named }) =>
      keys.filter((key) => within(key, named)),
    ),
  );
  const programs = regions.flatMap((region): Span[] => {
    const [lo, hi] = [integer(region, 'loprog') ?? 0, integer(region, 'hiprog') ?? 127];
    if (lo <= 0 && hi >= 127) return [];
    const isOut = (value: number) => value < 0 || value > 127;
    return [
      [Math.min(Math.max(lo, 0), 127), Math.min(Math.max(hi, 0), 127)],
      [isOut(lo) ? 0 : lo, isOut(hi) ? 127 : hi],
    ];
  });
  return reel.some(({ events }) =>
    events.some(
      (event) =>
        (event.kind === 'program' && programs.some((span) => within(event.data1, span))) ||
        (isNoteOn(event) && chosen.includes(event.data1)),
    ),
  );
}

export function switchTests(
  { instrument, reel, chooses }: Copy,
  region: OracleRegion,
): SwitchTest[] {
  return watchesOf(instrument, region).map(({ name, keys, first, named, doubts }) => ({
    signal: choosingSignal(name, first, keys, reel, chooses, (event) =>
      isNoteOn(event) && keys.includes(event.data1) ? event.data1 : null,
    ),
    named,
    doubts,
  }));
}

export function within(value: number, [lowest, highest]: Span): boolean {
  return lowest <= value && value <= highest;
}

function sameSpan(a: Span | null, b: Span | null): boolean {
  return a?.[0] === b?.[0] && a?.[1] === b?.[1];
}
