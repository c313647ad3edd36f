import { describe, expect, test } from 'vitest';
import { loadBytes } from '../../src/memory/sample-load.ts';
import type { Head, Player } from '../../src/template/player.ts';
import { playerOf, sampleOf } from './hand-made.ts';

const streamed = (head: Head, width: Player['width'] = 'source'): Player =>
  playerOf({ loads: 'streamed', head, width });

describe('a sample loaded whole', () => {
  test.each([
    // One second of Red Book audio: 44 100 x 2 channels x 2 bytes (IEC 60908).
    ['CD stereo', { channels: 2, width: 2 }, 44_100, 176_400],
    // 48 000 x 2 channels x 3 bytes.
    ['24-bit stereo at 48 kHz', { channels: 2, width: 3 }, 48_000, 288_000],
    // 7.1 has 8 channels (common practice): 48 000 x 8 x 3.
    ['24-bit 7.1 at 48 kHz', { channels: 8, width: 3 }, 48_000, 1_152_000],
    ['16-bit mono', { channels: 1, width: 2 }, 1, 2],
    ['nothing in it', { channels: 2, width: 2 }, 0, 0],
  ])('%s', (_, over, frames, bytes) => {
    expect(loadBytes(sampleOf('a', frames, over), playerOf({}))).toBe(bytes);
  });

  test("the player's width takes the place of the stored one", () => {
    // 44 100 x 2 x 4: a player that holds 32-bit points.
    const sample = sampleOf('a', 44_100, { channels: 2, width: 2 });
    expect(loadBytes(sample, playerOf({ width: 4 }))).toBe(352_800);
  });

  test('a head does not matter where samples are loaded whole', () => {
    const player = playerOf({ head: { unit: 'bytes', bytes: 8 } });
    expect(loadBytes(sampleOf('a', 100), player)).toBe(200);
  });

  test('what is not in the file takes nothing', () => {
    const sample = sampleOf('a', 44_100, { present: false });
    expect(loadBytes(sample, playerOf({}))).toBe(0);
    expect(loadBytes(sample, streamed({ unit: 'bytes', bytes: 61_440 }))).toBe(0);
  });

  test('the longest SoundFont header there can be stays exact', () => {
    // 2^32 - 1 frames x 8 x 4, all below 2^53.
    const sample = sampleOf('a', 4_294_967_295, { channels: 8, width: 4 });
    expect(loadBytes(sample, playerOf({}))).toBe(137_438_953_440);
  });
});

describe('a sample that is streamed', () => {
  /** Ten seconds of CD stereo: 1 764 000 bytes. */
  const long = sampleOf('long', 441_000, { channels: 2, rate: 44_100 });

  test.each<[string, Head, number]>([
    ['bytes', { unit: 'bytes', bytes: 61_440 }, 61_440],
    // 8 192 frames x 2 channels x 2 bytes.
    ['frames', { unit: 'frames', frames: 8_192 }, 32_768],
    // 0.25 s x 44 100 = 11 025 frames x 4.
    ['seconds', { unit: 'seconds', seconds: 0.25 }, 44_100],
    // 0.0001 s x 44 100 = 4.41 frames, 5 of them begun, x 4.
    ['a frame that is begun', { unit: 'seconds', seconds: 0.000_1 }, 20],
    ['no head', { unit: 'bytes', bytes: 0 }, 0],
    ['a head as long as the sample', { unit: 'seconds', seconds: 10 }, 1_764_000],
    ['a head that is longer', { unit: 'seconds', seconds: 11 }, 1_764_000],
  ])('%s', (_, head, bytes) => {
    expect(loadBytes(long, streamed(head))).toBe(bytes);
  });

  test("frames and seconds take the player's width, bytes are bytes", () => {
    expect(loadBytes(long, streamed({ unit: 'frames', frames: 100 }, 4))).toBe(800);
    expect(loadBytes(long, streamed({ unit: 'seconds', seconds: 0.25 }, 4))).toBe(88_200);
    expect(loadBytes(long, streamed({ unit: 'bytes', bytes: 100 }, 4))).toBe(100);
  });

  test.each([
    // By hand; in binary 0.07 x 48 000 is a little above 3 360 and 0.29 x 100 a little below 29.
    [0.07, 48_000, 3_360],
    [0.29, 100, 29],
    [0.06, 44_100, 2_646],
    [0.000_001, 48_000, 1],
  ])('%d s at %d frames a second are %d frames', (seconds, rate, frames) => {
    const sample = sampleOf('a', 1_000_000, { rate, width: 1 });
    expect(loadBytes(sample, streamed({ unit: 'seconds', seconds }))).toBe(frames);
  });
});
