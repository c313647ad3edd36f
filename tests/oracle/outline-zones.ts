/** The zones of an outline, in their order and with their names. */
import { plain } from './doubts.ts';
import type {
  Limits,
  OutlineArticulation,
  OutlineAxis,
  OutlineData,
  OutlineRoundRobins,
} from './outline-data.ts';
import { silentKeysOf } from './outline-data.ts';
import { playedRanges, stretchedOrBorrowed } from './outline-keys.ts';

/** Where a zone stands on one axis of layers. */
export interface OutlineLayer {
  readonly of: 'velocity' | number;
  readonly values: Limits;
  /** False: an even split stands for borders that nobody printed. */
  readonly printed: boolean;
  readonly name: string;
}

export interface OutlineZone {
  readonly name: string;
  readonly articulation: OutlineArticulation;
  /** Keys that only switch. */
  readonly silent: readonly number[];
  /** Whether a switch chooses its articulation among several. */
  readonly isChosen: boolean;
  readonly kind: 'sustain' | 'release' | 'legato';
  /** The doubt sets under which the zone plays a key; none: never. */
  readonly answers: (key: number) => readonly number[];
  readonly layers: readonly OutlineLayer[];
  /** Of a transition: from the key before, upwards positive; null: any, or no transition. */
  readonly interval: number | null;
}

type Described = Omit<OutlineZone, 'silent' | 'isChosen'>;

/** One recording place: a sampled key, or a whole range where none is known. */
interface Place {
  readonly name: string;
  readonly answers: (key: number, borrow: number | null) => readonly number[];
}

export function zonesOf(outline: OutlineData): OutlineZone[] {
  return outline.articulations.flatMap((one) => {
    const places = placesOf(outline, one);
    const silent = silentKeysOf(outline);
    const zones = [
      ...zonesOfKind('sustain', one, places, [null], one),
      ...(one.releases === null ? [] : zonesOfKind('release', one, places, [null], one.releases)),
      ...(one.legato === null
        ? []
        : zonesOfKind('legato', one, places, intervalsOf(one.legato.intervals), one.legato)),
    ];
    const by = one.switch !== null && one.switch.kind !== 'none' && one.when !== 'player-decides';
    const isChosen = by && outline.articulations.length > 1;
    return zones.map((zone) => ({ ...zone, silent, isChosen }));
  });
}

function zonesOfKind(
  kind: OutlineZone['kind'],
  one: OutlineArticulation,
  places: readonly Place[],
  intervals: readonly (number | null)[],
  { layers, roundRobins }: Recorded,
): Described[] {
  const microphones = one.microphones.length === 0 ? [null] : one.microphones;
  const zones: Described[] = [];
  for (const place of places) {
    for (const interval of intervals) {
      for (const cell of cellsOf(layers)) {
        for (let take = 1; take <= roundRobins.count - (roundRobins.borrow ?? 0); take++) {
          for (const microphone of microphones) {
            const parts = [
              one.name,
              place.name,
              ...cell.map(({ name }) => name),
              ...(roundRobins.count > 1 ? [`rr${take}`] : []),
              ...(microphone === null ? [] : [microphone]),
              ...(kind === 'sustain' ? [] : [kind]),
              ...(interval === null ? [] : [interval > 0 ? `+${interval}` : `${interval}`]),
            ];
            zones.push({
              name: parts.join(' '),
              articulation: one,
              kind,
              answers: (key) => place.answers(key, roundRobins.borrow),
              layers: cell,
              interval,
            });
          }
        }
      }
    }
  }
  return zones;
}

interface Recorded {
  readonly layers: readonly OutlineAxis[];
  readonly roundRobins: OutlineRoundRobins;
}

function placesOf(outline: OutlineData, one: OutlineArticulation): Place[] {
  const ranges = playedRanges(outline, one);
  const { sampled, stretch } = one;
  const isPlayed = (key: number) => ranges.some((range) => isWithin(key, range));
  if (sampled !== null) {
    return sampled.map((from) => ({
      name: keyName(from),
      answers: (key, borrow) =>
        isPlayed(key) ? stretchedOrBorrowed(key, from, sampled, stretch, borrow) : [],
    }));
  }
  return ranges.map((range) => ({
    name: range[0] === range[1] ? keyName(range[0]) : range.map(keyName).join('-'),
    answers: (key) => (isWithin(key, range) ? [plain] : []),
  }));
}

function intervalsOf(reach: number | null): (number | null)[] {
  if (reach === null) return [null];
  const upwards = Array.from({ length: reach }, (_, i) => i + 1);
  return [...upwards.toReversed().map((interval) => -interval), ...upwards];
}

/** Every combination of layers, the first axis slowest; no axes: one combination. */
function cellsOf(axes: readonly OutlineAxis[]): OutlineLayer[][] {
  let cells: OutlineLayer[][] = [[]];
  for (const axis of axes) {
    cells = cells.flatMap((cell) => layersOf(axis).map((layer) => [...cell, layer]));
  }
  return cells;
}

function layersOf({ of, layers }: OutlineAxis): OutlineLayer[] {
  if (typeof layers !== 'number') {
    return layers.map((values) => ({
      ...{ of, values, printed: true },
      name: of === 'velocity' ? `v${inName(values)}` : `cc${of} ${inName(values)}`,
    }));
  }
  return Array.from({ length: layers }, (_, i) => ({
    ...{ of, values: evenly(of, i, layers), printed: false },
    name: `layer ${i + 1} of ${layers}`,
  }));
}

function inName([lowest, highest]: Limits): string {
  return lowest === highest ? `${lowest}` : `${lowest}-${highest}`;
}

function evenly(of: OutlineAxis['of'], i: number, count: number): Limits {
  return of === 'velocity'
    ? [1 + Math.floor((127 * i) / count), Math.floor((127 * (i + 1)) / count)]
    : [Math.floor((128 * i) / count), Math.floor((128 * (i + 1)) / count) - 1];
}

const names = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'];

/** Key 60 is C4, whatever the file says. */
export function keyName(key: number): string {
  return `${names[key % 12]!}${Math.floor(key / 12) - 1}`;
}

export function isWithin(value: number, [lowest, highest]: Limits): boolean {
  return lowest <= value && value <= highest;
}
