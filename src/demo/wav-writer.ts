import { soundBytes, writeId, writePoints, type SoundFile } from './sound-file.ts';

/** What a sampler is told beside the sound. */
export interface SamplerHint {
  /** The key at which the sound is as recorded. */
  readonly key: number;
  /** The first frame of the loop, and the first one after it. */
  readonly loop: readonly [start: number, end: number];
}

const fmtBytes = 16;
const smplBytes = 60;

/**
 * A WAVE file of plain PCM ("Multimedia Programming Interface and Data Specifications 1.0", chapter
 * 3), with a `smpl` chunk in front of the sound where there is a loop ("New Multimedia Data Types and
 * Data Techniques" 3.0, "Sample Chunk").
 */
export const writeWav = (sound: SoundFile, hint: SamplerHint | null = null): Uint8Array => {
  const { channels, rate, bits } = sound;
  const length = soundBytes(sound);
  const hintBytes = hint === null ? 0 : 8 + smplBytes;
  const body = 4 + 8 + fmtBytes + hintBytes + 8 + length + (length % 2);
  const bytes = new Uint8Array(8 + body);
  const view = new DataView(bytes.buffer);
  let at = 0;
  const id = (name: string): void => {
    writeId(view, at, name);
    at += 4;
  };
  const u32 = (value: number): void => {
    view.setUint32(at, value, true);
    at += 4;
  };
  const u16 = (value: number): void => {
    view.setUint16(at, value, true);
    at += 2;
  };
  id('RIFF');
  u32(body);
  id('WAVE');
  id('fmt ');
  u32(fmtBytes);
  u16(1); // PCM
  u16(channels.length);
  u32(rate);
  u32((rate * channels.length * bits) / 8);
  u16((channels.length * bits) / 8);
  u16(bits);
  if (hint !== null) {
    const [start, end] = hint.loop;
    id('smpl');
    u32(smplBytes);
    // No maker, no product, the period of a point in nanoseconds, the key, no fine tuning, no SMPTE.
    for (const value of [0, 0, Math.round(1e9 / rate), hint.key, 0, 0, 0]) u32(value);
    u32(1);
    u32(0);
    // One loop: its number, forwards, its first and last frame, no fraction, without end.
    for (const value of [0, 0, start, end - 1, 0, 0]) u32(value);
  }
  id('data');
  u32(length);
  writePoints(view, at, sound, true);
  return bytes;
};
