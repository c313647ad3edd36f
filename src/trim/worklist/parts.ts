import type { Instrument } from '../../instruments/instrument.ts';
import type { Start } from '../../instruments/program.ts';
import { unitsOf } from '../../keep/units.ts';
import type { Grain } from '../../template/player.ts';
import type { KeptLayer, WorklistUnit } from './worklist.ts';

/** What one line can be about. */
export interface Part {
  readonly unit: WorklistUnit;
  /** Indices of its articulations, ascending. */
  readonly articulations: readonly number[];
  /** Indices of all of its zones, ascending; those of other parts may be among them. */
  readonly zones: readonly number[];
}

const known = new WeakMap<Instrument, Map<Grain, readonly Part[]>>();

/**
 * The parts of an instrument at the grain of its player, in the order of its articulations; where that
 * is a sample, articulations: a person sets keys and layers there. What nothing starts is a part as well,
 * the last one.
 */
export const partsOf = (instrument: Instrument, grain: Grain): readonly Part[] => {
  let byGrain = known.get(instrument);
  if (byGrain === undefined) known.set(instrument, (byGrain = new Map<Grain, readonly Part[]>()));
  let found = byGrain.get(grain);
  if (found === undefined) byGrain.set(grain, (found = find(instrument, grain)));
  return found;
};

/** All of an instrument, as one part. */
export const wholePart = ({ articulations, zones }: Instrument): Part => ({
  unit: {
    grain: 'instrument',
    articulations: articulations.map(({ name }) => name),
    layer: null,
    microphone: null,
  },
  articulations: articulations.map((_, i) => i),
  zones: zones.map((_, i) => i),
});

const find = (instrument: Instrument, grain: Grain): readonly Part[] => {
  const { starts } = instrument.program;
  const units = unitsOf(instrument, grain === 'sample' ? 'articulation' : grain);
  const parts = units.zones.map((zones, unit): Part => {
    const own = starts.filter((_, i) => units.ofStart[i] === unit);
    const articulations = ascending(own.map(({ articulation }) => articulation));
    return {
      unit: {
        grain,
        articulations: articulations.map((i) => instrument.articulations[i]!.name),
        layer: grain === 'layer' ? layerOf(instrument, own[0]!) : null,
        microphone: grain === 'microphone' ? instrument.zones[zones[0]!]!.microphone : null,
      },
      articulations,
      zones: ascending(zones),
    };
  });
  const started = new Set(parts.flatMap(({ zones }) => zones));
  const others = instrument.zones.flatMap((_, zone) => (started.has(zone) ? [] : [zone]));
  const unit = { grain, articulations: [], layer: null, microphone: null };
  return [
    ...parts.sort(inOrder),
    ...(others.length === 0 ? [] : [{ unit, articulations: [], zones: others }]),
  ];
};

const layerOf = ({ program }: Instrument, { velocities, fades }: Start): KeptLayer => ({
  velocity: velocities,
  controllers: fades.flatMap(({ signal: at, lo, hi }) => {
    const signal = program.signals[at]!;
    return signal.kind === 'controller'
      ? [{ number: signal.number, range: [lo, hi] as const }]
      : [];
  }),
});

/** By their articulations, soft layers first; the order of units where these are alike. */
const inOrder = (a: Part, b: Part): number => {
  const [x, y] = [a.unit.layer?.velocity, b.unit.layer?.velocity];
  const byLayer = x === undefined || y === undefined ? 0 : x[0] - y[0] || x[1] - y[1];
  return (a.articulations[0] ?? 0) - (b.articulations[0] ?? 0) || byLayer;
};

const ascending = (numbers: readonly number[]): readonly number[] =>
  [...new Set(numbers)].sort((a, b) => a - b);
