import type { ControllerRange } from '../../notation/controllers.ts';
import { intersect, type Range } from '../../terms/range.ts';
import { rangeText } from '../zone-name.ts';
import type { LayerAxis } from './outline.ts';

/** A combination of layers: what a note must be for it to sound. */
export interface LayerReach {
  /** What it is called in the name of a zone; none where there is one layer. */
  readonly names: readonly string[];
  /** By the plain reading; null: no velocity is in all of its ranges. */
  readonly velocities: Range | null;
  readonly controllers: readonly ControllerRange[];
  /** The same by what is printed alone (doubt `stretch`); null where all of it is. */
  readonly unprinted: {
    readonly velocities: Range | null;
    readonly controllers: readonly ControllerRange[];
  } | null;
  /** Its velocities are a part of all. */
  readonly asksVelocity: boolean;
}

/** Velocity 0 is a note-off. */
const anyVelocity: Range = [1, 127];
const anyValue: Range = [0, 127];

/** One layer of one axis. */
interface AxisLayer {
  readonly axis: LayerAxis;
  readonly range: Range;
  readonly isPrinted: boolean;
  readonly name: string | null;
}

/** How many combinations there are. */
export const layerCount = (axes: readonly LayerAxis[]): number =>
  axes.reduce((product, { count }) => product * count, 1);

/**
 * Every combination of layers, the first axis slowest.
 *
 * @param within velocities that the articulation is for; null: any
 */
export const layerReaches = (
  axes: readonly LayerAxis[],
  within: Range | null,
): readonly LayerReach[] =>
  axes
    .reduce<readonly (readonly AxisLayer[])[]>(
      (all, axis) => all.flatMap((some) => layersOf(axis).map((one) => [...some, one])),
      [[]],
    )
    .map((layers) => reachOf(layers, within ?? anyVelocity));

const reachOf = (layers: readonly AxisLayer[], within: Range): LayerReach => {
  const printed = layers.filter(({ isPrinted }) => isPrinted);
  const plain = conditionsOf(layers, within);
  return {
    names: layers.flatMap(({ name }) => name ?? []),
    ...plain,
    unprinted: printed.length === layers.length ? null : conditionsOf(printed, within),
    asksVelocity: plain.velocities === null || plain.velocities[0] > 1 || plain.velocities[1] < 127,
  };
};

const conditionsOf = (
  layers: readonly AxisLayer[],
  within: Range,
): Pick<LayerReach, 'velocities' | 'controllers'> => ({
  velocities: layers
    .filter(({ axis }) => axis.by === 'velocity')
    .reduce<Range | null>(
      (both, { range }) => both && intersect(both, range),
      intersect(within, anyVelocity),
    ),
  controllers: layers.flatMap(({ axis: { by }, range }) =>
    by === 'velocity' ? [] : [{ number: by, range }],
  ),
});

const layersOf = (axis: LayerAxis): readonly AxisLayer[] => {
  const { by, count, ranges } = axis;
  if (ranges !== null) {
    return ranges.map((range) => ({ axis, range, isPrinted: true, name: printedName(by, range) }));
  }
  return Array.from({ length: count }, (_, i) => ({
    axis,
    range: evenPart(by, i, count),
    isPrinted: count === 1,
    name: count === 1 ? null : `layer ${String(i + 1)} of ${String(count)}`,
  }));
};

/** Borders that are not printed lie evenly, by the plain reading. */
const evenPart = (by: LayerAxis['by'], i: number, count: number): Range => {
  const border = (values: number, n: number): number => Math.floor((values * n) / count);
  return by === 'velocity'
    ? [1 + border(127, i), border(127, i + 1)]
    : [border(128, i), border(128, i + 1) - 1];
};

const printedName = (by: LayerAxis['by'], range: Range): string | null => {
  const [lo, hi] = by === 'velocity' ? anyVelocity : anyValue;
  if (range[0] <= lo && range[1] >= hi) return null;
  return by === 'velocity' ? `v${rangeText(range)}` : `cc${String(by)} ${rangeText(range)}`;
};
