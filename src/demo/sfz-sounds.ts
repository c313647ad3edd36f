import { writeAiff } from './aiff-writer.ts';
import { Dice, seedOf } from './dice.ts';
import { writeFlac } from './flac-writer.ts';
import { strike, type Hit } from './hits.ts';
import { rate, record, type Tone } from './tones.ts';
import { writeWav } from './wav-writer.ts';

/** A sample file of an SFZ instrument; `name` is relative to the folder of its samples. */
export interface SampleFile {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** An SFZ instrument: its texts and its samples. */
export interface SfzFiles {
  /** The instrument's own first; paths are relative to the folder of the instruments. */
  readonly texts: readonly { readonly path: string; readonly text: string }[];
  readonly samples: readonly SampleFile[];
}

/** How a sample of a pitched sound is written. */
export interface Format {
  readonly channels: 1 | 2;
  readonly bits: 16 | 24;
}

/**
 * A pitched sound as a WAVE file; with a `smpl` chunk where the tone has a loop.
 *
 * @param name also the seed of its dice: takes of one key differ
 */
export const pitchedFile = (name: string, key: number, tone: Tone, format: Format): SampleFile => {
  const sides = Array.from({ length: format.channels }, (_, side) =>
    record(key, tone, new Dice(seedOf(`${name} ${String(side)}`))),
  );
  const channels = sides.map(({ points }) => points);
  const hint = tone.looped ? { key, loop: sides[0]!.loop } : null;
  return { name, bytes: writeWav({ channels, rate, bits: format.bits }, hint) };
};

/** A struck sound, mono in 16 bits; how it is written goes by the ending of its name. */
export const struckFile = (name: string, hit: Hit, force: number): SampleFile => {
  const { points } = strike(hit, force, new Dice(seedOf(name)));
  const sound = { channels: [points], rate, bits: 16 } as const;
  if (name.endsWith('.flac')) return { name, bytes: writeFlac(points, rate) };
  return { name, bytes: name.endsWith('.aif') ? writeAiff(sound) : writeWav(sound) };
};
