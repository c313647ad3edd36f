import {
  operators,
  range,
  writeBank,
  type Generator,
  type InstrumentPlan,
  type ZonePlan,
} from '../oracle/soundfont-bytes.ts';
import { sampleName, type Model, type ModelZone } from './model.ts';

/** Ways to write one and the same preset. */
export interface SoundFontStyle {
  /**
   * Zones that end at or below this key have an instrument of their own; the preset cuts at that key
   * those that end there. Null: one instrument for all.
   */
  readonly split: number | null;
  /** Global zones that choose nothing. */
  readonly globals: boolean;
}

export interface WrittenSoundFont {
  readonly bytes: Uint8Array;
  /** By index in `ibag`, the zone of the model; undefined at a global zone. */
  readonly zoneOf: readonly (number | undefined)[];
}

/** Initial attenuation (SoundFont 2.04, section 8.1.2): a little of it. */
const quieter: Generator = [48, 10];

/** A SoundFont with the zones of a model, keys and velocities alone, as its preset 0:0. */
export const writeSoundFont = (model: Model, style: SoundFontStyle): WrittenSoundFont => {
  const { split, globals } = style;
  const isLow = ({ keys }: ModelZone): boolean => split !== null && keys[1] <= split;
  const numbered = model.zones.map((zone, number) => ({ zone, number }));
  const parts = [
    { cut: split, zones: numbered.filter(({ zone }) => isLow(zone)) },
    { cut: null, zones: numbered.filter(({ zone }) => !isLow(zone)) },
  ].filter(({ zones }) => zones.length > 0);
  const zoneOf: (number | undefined)[] = [];
  const instruments = parts.map(({ cut, zones }, i): InstrumentPlan => {
    zoneOf.push(...(globals ? [undefined] : []), ...zones.map(({ number }) => number));
    const own = zones.map(({ zone }) => instrumentZone(zone, cut));
    return { name: `part ${String(i)}`, zones: globals ? [global, ...own] : own };
  });
  const presetZones = parts.map(({ cut }, i): ZonePlan => ({
    generators: [
      ...(cut === null ? [] : [[operators.keyRange, range(0, cut)] as const]),
      [operators.instrument, i],
    ],
  }));
  const bytes = writeBank({
    presets: [
      {
        ...{ name: 'one', bank: 0, program: 0 },
        zones: globals ? [global, ...presetZones] : presetZones,
      },
    ],
    instruments,
    samples: model.samples.map(({ frames, rate }, i) => ({ name: sampleName(i), frames, rate })),
  });
  return { bytes, zoneOf };
};

const global: ZonePlan = { generators: [quieter] };

const instrumentZone = ({ keys, velocities, sample }: ModelZone, cut: number | null): ZonePlan => ({
  generators: [
    [operators.keyRange, range(keys[0], keys[1] === cut ? 127 : keys[1])],
    ...(velocities[0] === 1 && velocities[1] === 127
      ? []
      : [[operators.velocityRange, range(...velocities)] as const]),
    [operators.sampleId, sample],
  ],
});
