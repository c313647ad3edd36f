import type { Instrument, Layer } from '../../instruments/instrument.ts';
import type { Start } from '../../instruments/program.ts';
import type { KeyMapRow } from './key-map.ts';
import { rowEventOf, rowEvents } from './start-keys.ts';

/** A zone of a row, and the starts that put it there. */
export interface RowZone {
  /** Index into the instrument's zones. */
  readonly zone: number;
  /** Indices into the program's starts. */
  readonly starts: readonly number[];
}

/** The zones of a layer that one kind of event starts. */
export interface ZonedRow extends Pick<KeyMapRow, 'velocity' | 'controllers' | 'event'> {
  readonly zones: readonly RowZone[];
}

type Layered = Pick<Layer, 'velocity' | 'controllers'>;

/**
 * The rows of each articulation, in the order in which they are shown. A zone stands in its layers,
 * under the event that starts it; one that notes start too, under notes alone.
 */
export const zonedRows = (instrument: Instrument): readonly (readonly ZonedRow[])[] => {
  const started = instrument.articulations.map(() => new Map<number, number[]>());
  instrument.program.starts.forEach(({ articulation, zone }, i) => {
    const zones = started[articulation]!;
    const own = zones.get(zone);
    if (own === undefined) zones.set(zone, [i]);
    else own.push(i);
  });
  return instrument.articulations.map(({ layers }, a) =>
    rowsOf(layers, started[a]!, instrument.program.starts),
  );
};

interface OpenRow extends ZonedRow {
  readonly zones: RowZone[];
}

const rowsOf = (
  layers: readonly Layer[],
  started: ReadonlyMap<number, readonly number[]>,
  starts: readonly Start[],
): readonly ZonedRow[] => {
  const layersOfZone = new Map<number, Layered[]>();
  for (const layer of layers) {
    for (const zone of layer.zones) {
      const own = layersOfZone.get(zone);
      if (own === undefined) layersOfZone.set(zone, [layer]);
      else own.push(layer);
    }
  }
  const rows = new Map<string, OpenRow>();
  const add = (layer: Layered, event: KeyMapRow['event'], zone: RowZone): void => {
    const { velocity, controllers } = layer;
    const key = JSON.stringify([event, velocity, controllers]);
    const row = rows.get(key);
    if (row === undefined) rows.set(key, { velocity, controllers, event, zones: [zone] });
    else row.zones.push(zone);
  };
  for (const zone of [...started.keys()].sort((a, b) => a - b)) {
    const all = started.get(zone)!;
    const event = rowEvents.find((one) => all.some((i) => rowEventOf(starts[i]!.event) === one))!;
    const own = all.filter((i) => rowEventOf(starts[i]!.event) === event);
    const there = layersOfZone.get(zone) ?? layersFrom(own.map((i) => starts[i]!));
    for (const layer of there) {
      add(layer, event, { zone, starts: there.length === 1 ? own : ofLayer(layer, own, starts) });
    }
  }
  return [...rows.values()].sort(inOrder);
};

/** In a bank one zone may be reached through several ranges of velocity, each with keys of its own. */
const ofLayer = (
  { velocity: [lo, hi] }: Layered,
  own: readonly number[],
  starts: readonly Start[],
): readonly number[] => {
  const alike = own.filter((i) => {
    const { velocities } = starts[i]!;
    return velocities[0] === lo && velocities[1] === hi;
  });
  return alike.length === 0 ? own : alike;
};

/** What only a doubt starts is in no layer of a bank's preset: its starts say where it belongs. */
const layersFrom = (starts: readonly Start[]): readonly Layered[] => {
  const layers = starts.map(({ velocities }) => ({ velocity: velocities, controllers: [] }));
  const seen = new Set<string>();
  return layers.filter(({ velocity }) => {
    const key = velocity.join();
    return !seen.has(key) && seen.add(key);
  });
};

/** Notes first, the loudest first. */
const inOrder = (a: ZonedRow, b: ZonedRow): number =>
  rowEvents.indexOf(a.event) - rowEvents.indexOf(b.event) ||
  b.velocity[1] - a.velocity[1] ||
  b.velocity[0] - a.velocity[0] ||
  byControllers(a, b);

const byControllers = (a: Layered, b: Layered): number => {
  const most = Math.max(a.controllers.length, b.controllers.length);
  for (let i = 0; i < most; i++) {
    const [one, two] = [a.controllers[i], b.controllers[i]];
    if (one === undefined || two === undefined) return one === undefined ? -1 : 1;
    const order =
      one.number - two.number || two.range[1] - one.range[1] || two.range[0] - one.range[0];
    if (order !== 0) return order;
  }
  return 0;
};
