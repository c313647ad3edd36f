import { createHash } from 'node:crypto';
import { SoundFont2 } from 'soundfont2';

/**
 * A bank as `soundfont2` reads it, a reader of other origin. It mixes up modulators, so these are left
 * out.
 */
export interface ReadZone {
  /** Generators in the order of their numbers, without the ones that name an instrument or a sample. */
  readonly generators: readonly object[];
  /** The instrument or sample that it leads to. */
  readonly target: string;
}

export interface ReadOwner {
  readonly name: string;
  readonly bank: number;
  readonly program: number;
  readonly global: ReadZone | null;
  readonly zones: readonly ReadZone[];
}

export interface ReadSample {
  readonly name: string;
  readonly rate: number;
  readonly key: number;
  /** Loop points from the start of the sample. */
  readonly loop: readonly [start: number, end: number];
  readonly length: number;
  /** A sum of its points. */
  readonly sum: string;
}

export interface ReadSoundFont {
  readonly presets: readonly ReadOwner[];
  readonly instruments: readonly ReadOwner[];
  readonly samples: readonly ReadSample[];
}

const instrumentOperator = 41;
const sampleOperator = 53;

interface Zone {
  readonly generators: Readonly<Record<string, { readonly id: number } | undefined>>;
}

/** What the library gives and does not declare. */
interface WithGlobal {
  readonly globalZone?: Zone;
}

const readZone = (zone: Zone, target: string): ReadZone => ({
  generators: Object.values(zone.generators).filter(
    (one) => one !== undefined && one.id !== instrumentOperator && one.id !== sampleOperator,
  ) as readonly object[],
  target,
});

const globalOf = (owner: object): ReadZone | null => {
  const { globalZone } = owner as WithGlobal;
  return globalZone === undefined ? null : readZone(globalZone, '');
};

export const readWithSoundfont2 = (bytes: Uint8Array): ReadSoundFont => {
  const { presets, instruments, samples } = new SoundFont2(bytes);
  return {
    presets: presets.map((preset) => ({
      name: preset.header.name,
      bank: preset.header.bank,
      program: preset.header.preset,
      global: globalOf(preset),
      zones: preset.zones.map((zone) => readZone(zone, zone.instrument.header.name)),
    })),
    instruments: instruments.map((instrument) => ({
      name: instrument.header.name,
      ...{ bank: 0, program: 0 },
      global: globalOf(instrument),
      zones: instrument.zones.map((zone) => readZone(zone, zone.sample.header.name)),
    })),
    // The library counts loop points from the start already.
    samples: samples.map(({ header, data }) => ({
      name: header.name,
      rate: header.sampleRate,
      key: header.originalPitch,
      loop: [header.startLoop, header.endLoop],
      length: data.length,
      sum: createHash('sha256').update(data).digest('hex'),
    })),
  };
};
