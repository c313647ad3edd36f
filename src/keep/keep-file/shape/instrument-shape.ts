import type {
  InstrumentBytes,
  PlanArticulation,
  PlanChoice,
  PlanCopy,
  PlanInstrument,
  PlanLayer,
} from '../../plan.ts';
import { range, settlements } from './settings-shape.ts';
import { count, digest, group, list, oneOf, orNull, text, truth, whole } from './shape.ts';
import { droppedZone, keptZone } from './zone-shape.ts';

const bytes = group<InstrumentBytes>({
  full: count,
  reached: count,
  kept: count,
  unknownSamples: count,
  basis: oneOf('computed', 'fitted', 'read'),
  readings: count,
  residual: count,
  low: count,
  high: count,
});

const copy = group<PlanCopy>({
  name: text,
  notes: count,
  zonesKept: count,
  kept: orNull(list(count)),
  muted: list(count),
  chosen: list(
    group<PlanChoice>({ cue: text, signal: count, channel: orNull(count), values: list(whole) }),
  ),
  opensUnset: truth,
});

const controllers = list(group<PlanLayer['controllers'][number]>({ number: count, range }));

const articulation = group<PlanArticulation>({
  name: text,
  switch: orNull(text),
  notes: count,
  keys: list(range),
  velocities: orNull(range),
  controllers,
  layers: list(group<PlanLayer>({ velocity: range, controllers, zones: count, zonesKept: count })),
  zones: count,
  zonesKept: count,
  bytes: group<PlanArticulation['bytes']>({ full: count, kept: count }),
});

export const instrument = group<PlanInstrument>({
  id: text,
  source: text,
  sha256: digest,
  machine: text,
  player: text,
  zones: count,
  zonesKept: count,
  samples: count,
  samplesKept: count,
  bytes,
  shares: oneOf('copy', 'machine'),
  unloads: oneOf('sample', 'layer', 'articulation', 'microphone', 'instrument'),
  settle: settlements,
  copies: list(copy),
  articulations: list(articulation),
  kept: list(keptZone),
  dropped: list(droppedZone),
  presetZones: list(count),
});
