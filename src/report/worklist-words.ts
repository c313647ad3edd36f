import type {
  KeptLayer,
  KeptPart,
  WorklistAction,
  WorklistUnit,
} from '../trim/worklist/worklist.ts';
import { keyRangeLabel } from '../terms/key.ts';
import type { Range } from '../terms/range.ts';
import { bytesIn, formatBytes, formatCount, type ByteUnit } from './format.ts';

const dash = ([lo, hi]: Range): string => (lo === hi ? String(lo) : `${String(lo)}-${String(hi)}`);

/** Velocity 0 ends a note, so that 1 is the lowest that starts one. */
const isEvery = ([lo, hi]: Range): boolean => lo <= 1 && hi === 127;

/**
 * A layer as a player's editor shows it; '' for one that is always heard.
 *
 * @example layerWords({ velocity: [41, 127], controllers: [] }) // 'velocity 41-127'
 */
export const layerWords = (
  { velocity, controllers }: KeptLayer,
  range: (range: Range) => string = dash,
): string =>
  [
    ...(isEvery(velocity) ? [] : [`velocity ${range(velocity)}`]),
    ...controllers.map(({ number, range: reach }) => `CC${String(number)} ${range(reach)}`),
  ].join(' and ');

/** What chooses among layers that only one thing chooses: its number, -1 for velocity; null: several do. */
const chosenBy = ({ velocity, controllers }: KeptLayer): readonly [by: number, Range] | null => {
  const [first, ...others] = controllers;
  if (first === undefined) return [-1, velocity];
  return others.length === 0 && isEvery(velocity) ? [first.number, first.range] : null;
};

/** Whether layers that one controller, or velocity, chooses reach together over all of its values. */
const coverAll = (layers: readonly KeptLayer[]): boolean => {
  const chosen = layers.flatMap((layer) => {
    const by = chosenBy(layer);
    return by === null ? [] : [by];
  });
  return [...new Set(chosen.map(([by]) => by))].some((by) => {
    const ranges = chosen.filter(([other]) => other === by).map(([, range]) => range);
    let next = by === -1 ? 1 : 0;
    for (const [lo, hi] of ranges.toSorted((a, b) => a[0] - b[0])) {
      if (lo > next) return false;
      next = Math.max(next, hi + 1);
    }
    return next > 127;
  });
};

/** Layers that a line of the list names; of more it tells how many there are. */
const mostLayers = 4;

/** What stays of a unit in playing words: its keys, then its layers where they are not all of them. */
export const keptItems = ({ keys, layers }: KeptPart, middleC?: number): readonly string[] => {
  const named = layers.map((layer) => layerWords(layer)).filter((text) => text !== '');
  // One that is always heard makes the others' limits say nothing; so do several that leave no gap.
  const isFree = named.length < layers.length || coverAll(layers);
  const limits = isFree ? [] : [...new Set(named)];
  const rest = limits.length - mostLayers;
  return [
    ...keys.map((range) => keyRangeLabel(range, middleC)),
    ...limits.slice(0, mostLayers),
    ...(rest > 0 ? [`${formatCount(rest)} more layers`] : []),
  ];
};

/** What a line is about, beside its instrument: names of articulations and words. */
export interface UnitWords {
  readonly articulations: readonly string[];
  /** The layer; '' where it is of no account. */
  readonly layer: string;
  readonly microphone: string | null;
}

export const unitWords = ({
  grain,
  articulations,
  layer,
  microphone,
}: WorklistUnit): UnitWords => ({
  articulations: grain === 'instrument' ? [] : articulations,
  layer: layer === null ? '' : layerWords(layer),
  microphone,
});

/** Unloading is what most lines are: the others stand out. */
export const doesWord = ({ does }: Pick<WorklistAction, 'does'>): string =>
  does === 'load' ? 'LOAD' : 'unload';

/** Where nobody knows how large the samples of a step are. */
export const unknownSize = '?';

/** Bytes that may be below zero. */
export const signedBytes = (count: number): string =>
  count < 0 ? `-${formatBytes(-count)}` : formatBytes(count);

export const signedBytesIn = (count: number, unit: ByteUnit): string =>
  count < 0 ? `-${bytesIn(-count, unit)}` : bytesIn(count, unit);

/** Actions of one instrument, or one copy, that follow each other. */
export interface ActionRun<Action extends OfInstrument = WorklistAction> {
  readonly instrument: string;
  readonly copy: string | null;
  readonly actions: readonly Action[];
}

type OfInstrument = Pick<WorklistAction, 'instrument' | 'copy'>;

export const runsOf = <Action extends OfInstrument>(
  actions: readonly Action[],
): readonly ActionRun<Action>[] => {
  const runs: { instrument: string; copy: string | null; actions: Action[] }[] = [];
  for (const action of actions) {
    const last = runs.at(-1);
    if (last?.instrument === action.instrument && last.copy === action.copy) {
      last.actions.push(action);
    } else {
      runs.push({ instrument: action.instrument, copy: action.copy, actions: [action] });
    }
  }
  return runs;
};

/** Numbers as a person writes them for `--done`. @example numberRanges([3, 4, 5, 12]) // '3-5, 12' */
export const numberRanges = (numbers: readonly number[]): string => {
  const ranges: [number, number][] = [];
  for (const number of [...new Set(numbers)].sort((a, b) => a - b)) {
    const last = ranges.at(-1);
    if (last?.[1] === number - 1) last[1] = number;
    else ranges.push([number, number]);
  }
  return ranges.map(dash).join(', ');
};
