import { keyLabel } from '../../../terms/key.ts';
import type { Range } from '../../../terms/range.ts';
import { everyArticulation, type Articulation, type Layer } from '../../instrument.ts';
import type { NamedRegion } from './named-region.ts';
import { fadeIn, fadeOut } from './crossfade.ts';
import { controllerLimits, covers, sevenBits } from './controller-gates.ts';
import type { RegionOpcodes } from './region-opcodes.ts';
import { switchOf } from './switch-signals.ts';
import { velocityReadings } from './velocity-range.ts';

/** The articulations of an instrument, and the number of each region's. */
export interface SfzArticulations {
  readonly all: readonly Articulation[];
  readonly ofRegion: readonly number[];
}

/** The name where nothing switches. */
const onlyOne = 'all';

/**
 * Regions that one keyswitch turns on are an articulation, by its `sw_label` or else its key; regions
 * without a switch belong to every articulation.
 */
export const gatherArticulations = (regions: readonly NamedRegion[]): SfzArticulations => {
  const drafts = new Map<string, { range: Range | null; label: string | null; own: number[] }>();
  const numbers = new Map<string, number>();
  const ofRegion = regions.map(({ region, opcodes }, i) => {
    const range = switchOf(opcodes, region)?.keys ?? null;
    const text = JSON.stringify(range);
    let draft = drafts.get(text);
    if (draft === undefined) {
      numbers.set(text, drafts.size);
      drafts.set(text, (draft = { range, label: null, own: [] }));
    }
    draft.label ??= labelOf(opcodes);
    draft.own.push(i);
    return numbers.get(text)!;
  });
  const taken = new Set<string>([everyArticulation]);
  const isSwitched = drafts.size > 1 || [...drafts.values()].some(({ range }) => range !== null);
  const all = [...drafts.values()].map(({ range, label, own }): Articulation => ({
    name:
      range === null
        ? isSwitched
          ? everyArticulation
          : onlyOne
        : unique(label ?? keysLabel(range), taken),
    switch: range === null ? null : keysLabel(range),
    ...(range === null ? {} : { switchKeys: range }),
    layers: layersOf(own, regions),
  }));
  return { all, ofRegion };
};

const labelOf = (opcodes: RegionOpcodes): string | null => {
  const label = opcodes.inOrder.findLast(({ name }) => name === 'sw_label')?.value.trim();
  return label === undefined || label === '' ? null : label;
};

const keysLabel = ([lo, hi]: Range): string =>
  lo === hi ? keyLabel(lo) : `${keyLabel(lo)}-${keyLabel(hi)}`;

/** Two switches may bear one label. */
const unique = (name: string, taken: Set<string>): string => {
  let own = name;
  for (let n = 2; taken.has(own); n++) own = `${name} ${String(n)}`;
  taken.add(own);
  return own;
};

/** Regions with the same velocities and controllers, in the order in which they appear. */
const layersOf = (own: readonly number[], regions: readonly NamedRegion[]): readonly Layer[] => {
  const layers = new Map<string, Omit<Layer, 'zones'> & { readonly zones: number[] }>();
  for (const number of own) {
    const { opcodes } = regions[number]!;
    const velocity = velocityReadings(opcodes)[0]?.range ?? [1, 0];
    const lowest: Range = [Math.max(velocity[0], 1), velocity[1]];
    const controllers = layerControllers(opcodes);
    const text = JSON.stringify([lowest, controllers]);
    const layer = layers.get(text);
    if (layer === undefined) layers.set(text, { velocity: lowest, controllers, zones: [number] });
    else layer.zones.push(number);
  }
  return [...layers.values()];
};

/** Controllers that open a region, and those that fade it, where they leave something to be heard. */
const layerControllers = (opcodes: RegionOpcodes): Layer['controllers'] => {
  const ranges = new Map<number, Range>();
  const narrow = (number: number, [lo, hi]: Range): void => {
    const [least, most] = ranges.get(number) ?? sevenBits;
    ranges.set(number, [Math.max(least, lo), Math.min(most, hi)]);
  };
  for (const { number, readings } of controllerLimits(opcodes, '')) {
    if (number > 127 || covers(readings, sevenBits)) continue;
    narrow(number, readings[0]?.range ?? [1, 0]);
  }
  for (const number of opcodes.numbered('xfin_locc', 'xfin_hicc')) {
    const limit = (end: string): number => opcodes.whole(`xfin_${end}cc${String(number)}`) ?? 0;
    const heard = fadeIn(limit('lo'), limit('hi'));
    if (number <= 127 && heard !== null) narrow(number, heard);
  }
  for (const number of opcodes.numbered('xfout_locc', 'xfout_hicc')) {
    const heard = fadeOut(
      opcodes.whole(`xfout_locc${String(number)}`) ?? 0,
      opcodes.whole(`xfout_hicc${String(number)}`) ?? 127,
    );
    if (number <= 127 && heard !== null) narrow(number, heard);
  }
  return [...ranges]
    .sort(([a], [b]) => a - b)
    .map(([number, [lo, hi]]) => ({ number, range: [Math.max(lo, 0), Math.min(hi, 127)] }));
};
