import { doubtSet, type DoubtSet } from '../../terms/doubt.ts';
import { inputError } from '../../terms/errors.ts';
import { intersect, type Range } from '../../terms/range.ts';
import type { Start } from '../program.ts';
import type { BankZone, OwnRanges, ZoneSet } from './zones.ts';

/** The starts of a bank, and for each the preset zone (index in `pbag`) it goes through. */
export interface Starts {
  readonly starts: readonly Start[];
  readonly presetZones: readonly number[];
}

/** Preset zones times instrument zones; each pair makes two starts at the most. */
const mostPairs = 2_000_000;

const engine = doubtSet('engine');
const noFades: Start['fades'] = [];

/**
 * The starts of `presets`: each instrument zone as often as a preset zone leads to it, with the
 * preset zone's ranges as a filter on its own (SoundFont 2.04, section 9.4). A preset's number is its
 * gate and its articulation.
 *
 * A global zone's range stands for the local zones that have none: it is a generator like any other
 * (9.4), and this is the plain reading. FluidSynth 2.3.1 does not pass it on. Where the two differ the
 * zone has a second start, as wide as the reading without inheritance at both levels, with the doubt
 * `engine`. Inheritance at one level only lies within that and needs no start of its own.
 *
 * @param instruments what a preset zone's target indexes
 * @param zoneOf number of the zone with a given index in `ibag`
 * @param doubtOf the doubt that a preset is played at all
 * @throws {InputError} `bank-too-large` for more than two million pairs, before any start is made
 */
export const compileStarts = (
  path: string,
  presets: readonly ZoneSet[],
  instruments: readonly ZoneSet[],
  zoneOf: ReadonlyMap<number, number>,
  doubtOf: (preset: number) => DoubtSet,
): Starts => {
  checkPairs(path, presets, instruments);
  const starts: Start[] = [];
  const presetZones: number[] = [];
  const range = rangeTable();
  const add = (preset: number, bag: number, zone: number, area: Area, doubt: DoubtSet): void => {
    starts.push({
      zone,
      articulation: preset,
      event: 'note-on',
      keys: range(area.keys),
      velocities: range(area.velocities),
      gate: preset,
      fades: noFades,
      doubt,
      hold: 0,
      releaseSeconds: Infinity,
    });
    presetZones.push(bag);
  };
  const inner = instruments.map(readingsOf);
  for (const [preset, set] of presets.entries()) {
    for (const outerZone of readingsOf(set)) {
      for (const innerZone of inner[outerZone.target]!) {
        const zone = zoneOf.get(innerZone.bag)!;
        const plainly = overlap(outerZone.inherited, innerZone.inherited);
        if (plainly !== null) add(preset, outerZone.bag, zone, plainly, doubtOf(preset));
        if (outerZone.same && innerZone.same) continue;
        const widely = overlap(outerZone.own, innerZone.own);
        if (widely !== null && !isSame(widely, plainly)) {
          add(preset, outerZone.bag, zone, widely, engine);
        }
      }
    }
  }
  return { starts, presetZones };
};

/** Keys and velocities under which a zone sounds. */
interface Area {
  readonly keys: Range;
  readonly velocities: Range;
}

/** A zone's area with the global zone's ranges passed on to it, and without. */
interface Readings extends Pick<BankZone, 'bag' | 'target'> {
  readonly inherited: Area;
  readonly own: Area;
  readonly same: boolean;
}

const everything: Range = [0, 127];
const nothing: OwnRanges = { keys: null, velocities: null };

const readingsOf = ({ global, zones }: ZoneSet): readonly Readings[] =>
  zones.map((zone) => {
    const inherited = areaOf(zone, global);
    const own = areaOf(zone, nothing);
    return { bag: zone.bag, target: zone.target, inherited, own, same: isSame(own, inherited) };
  });

/** A local generator replaces the global one of its kind (section 9.4). */
const areaOf = (zone: OwnRanges, global: OwnRanges): Area => ({
  keys: zone.keys ?? global.keys ?? everything,
  velocities: zone.velocities ?? global.velocities ?? everything,
});

const overlap = (a: Area, b: Area): Area | null => {
  const keys = intersect(a.keys, b.keys);
  if (keys === null) return null;
  const velocities = intersect(a.velocities, b.velocities);
  return velocities === null ? null : { keys, velocities };
};

const isSame = (a: Area, b: Area | null): boolean =>
  b !== null && isSameRange(a.keys, b.keys) && isSameRange(a.velocities, b.velocities);

const isSameRange = (a: Range, b: Range): boolean => a[0] === b[0] && a[1] === b[1];

/** Hands out one object for equal ranges: a large bank has millions of starts but few ranges. */
const rangeTable = (): ((range: Range) => Range) => {
  const table = new Map<number, Range>();
  return (range) => {
    const number = range[0] * 128 + range[1];
    const known = table.get(number);
    if (known === undefined) table.set(number, range);
    return known ?? range;
  };
};

const checkPairs = (
  path: string,
  presets: readonly ZoneSet[],
  instruments: readonly ZoneSet[],
): void => {
  let count = 0;
  for (const { zones } of presets) {
    for (const { target } of zones) count += instruments[target]!.zones.length;
  }
  if (count > mostPairs) throw inputError('bank-too-large', path, { chunk: 'pbag', count });
};
