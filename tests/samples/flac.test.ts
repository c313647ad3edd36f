import { describe, expect, it, test } from 'vitest';
import { hex } from '../midi/hex.ts';
import { countReads, headerOf } from './counted.ts';
import { ascii, flacBlock, join, smpl, streamInfo, zeros, type StreamInfo } from './writers.ts';

/** RFC 9639, appendix D.1.1. */
const example1 = hex(`
  664c 6143 8000 0022 1000 1000 0000 0f00 000f 0ac4 42f0 0000
  0001 3e84 b418 07dc 6903 0758 6a3d ad1a 2e0f fff8 6918 0000
  bf03 58fd 0312 8baa 9a
`);

/** RFC 9639, appendix D.2.1. */
const example2 = hex(`
  664c 6143 0000 0022 0010 0010 0000 1700 0044 0ac4 42f0 0000
  0013 d5b0 5649 75e9 8b8d 8b93 0422 757b 8103 0300 0012 0000
  0000 0000 0000 0000 0000 0000 0000 0010 0400 003a 2000 0000
  7265 6665 7265 6e63 6520 6c69 6246 4c41 4320 312e 332e 3320
  3230 3139 3038 3034 0100 0000 0e00 0000 5449 544c 453d d7a9
  d79c d795 d79d 8100 0006 0000 0000 0000 fff8 6998 000f 9912
  0867 0162 3d14 4299 8f5d f70d 6fe0 0c17 caeb 2100 0ee7 a77a
  24a1 590c 1217 b603 097b 784f aa9a 33d2 85e0 70ad 5b1b 4851
  b401 0d99 d2cd 1a68 f1e6 b810 fff8 6918 0102 a402 c382 c40b
  c14a 03ee 48dd 03b6 7c13 30
`);

const header = {
  format: 'flac',
  frames: 1,
  channels: 2,
  width: 2,
  widthAssumed: false,
  rate: 44100,
  loop: null,
  remarks: [],
};

const flac = (info: StreamInfo, blocks: readonly Uint8Array[] = [], sound = 4000): Uint8Array =>
  join(ascii('fLaC'), flacBlock(0, streamInfo(info), blocks.length === 0), ...blocks, zeros(sound));

const foreign = (chunk: Uint8Array, last = true): Uint8Array =>
  flacBlock(2, join(ascii('riff'), chunk), last);

describe('a FLAC file', () => {
  test.each([
    ['1', example1, 1],
    ['2', example2, 19],
  ])('example %s of RFC 9639 is read in one read', async (_, file, frames) => {
    const { result, reads } = await countReads(file);
    expect(result).toEqual({ ...header, frames });
    expect(reads).toHaveLength(1);
  });

  test.each<[StreamInfo, number]>([
    [{ frames: 1000, channels: 1, rate: 8000, bits: 8 }, 1],
    [{ frames: 1000, channels: 2, rate: 48000, bits: 12 }, 2],
    [{ frames: 1000, channels: 6, rate: 192000, bits: 20 }, 3],
    [{ frames: 1000, channels: 8, rate: 655350, bits: 32 }, 4],
  ])('%j', async (info, width) => {
    const { frames, channels, rate } = info;
    expect(await headerOf(flac(info))).toEqual({ ...header, frames, channels, rate, width });
  });

  it('may hold more than 2^32 frames', async () => {
    const frames = 5 * 10 ** 9;
    const head = flac({ frames, channels: 2 }, [], 0);
    const { result } = await countReads(head, head.length + 10 ** 10);
    expect(result).toEqual({ ...header, frames });
  });

  it('may stand behind an ID3v2 tag (ID3v2.4.0, sections 3.1 and 3.4)', async () => {
    const tag = (flags: number, rest: number) =>
      join(ascii('ID3\x04\0'), Uint8Array.of(flags, 0, 0, 1, 2), zeros(rest));
    expect(await headerOf(join(tag(0, 130), example1))).toEqual(header);
    expect(await headerOf(join(tag(0x10, 140), example1))).toEqual(header);
    expect(await headerOf(tag(0, 130))).toEqual({ code: 'cut', part: 'ID3' });
    const other = join(tag(0, 130), ascii('text'));
    expect(await headerOf(other)).toEqual({ code: 'not-audio', begins: 'ID3\\x04' });
  });
});

describe('blocks behind the first (RFC 9639, section 8)', () => {
  const info = { frames: 1000, channels: 2 };

  it('keep the loop of the WAVE file it was made of', async () => {
    const blocks = [foreign(ascii('RIFF....WAVE'), false), foreign(smpl([10, 900]))];
    const { result, reads } = await countReads(flac(info, blocks));
    expect(result).toEqual({ ...header, frames: 1000, loop: { start: 10, end: 900 } });
    expect(reads).toHaveLength(1);
  });

  test.each([
    ['another application', flacBlock(2, join(ascii('peep'), smpl([1, 2])), true)],
    ['too short', foreign(smpl([1, 2]).subarray(0, 50))],
    ['without a loop', foreign(smpl())],
    ['empty', flacBlock(2, zeros(0), true)],
  ])('%s', async (_, block) => {
    expect(await headerOf(flac(info, [block]))).toEqual({ ...header, frames: 1000 });
  });

  it('cost one read more for a picture', async () => {
    const { result, reads } = await countReads(
      flac(info, [flacBlock(6, zeros(100_000)), foreign(smpl([1, 2]))]),
    );
    expect(result).toMatchObject({ loop: { start: 1, end: 2 } });
    expect(reads).toHaveLength(2);
  });

  it('are given up when there are many large ones', async () => {
    const pictures = Array.from({ length: 30 }, () => flacBlock(6, zeros(10_000)));
    const { result, reads } = await countReads(flac(info, [...pictures, foreign(smpl([1, 2]))]));
    expect(result).toEqual({ ...header, frames: 1000, remarks: [{ code: 'search-stopped' }] });
    expect(reads).toHaveLength(12);
  });
});

describe('cut and damaged', () => {
  test.each([
    ['inside the first block', example1.subarray(0, 41), { code: 'cut', part: 'STREAMINFO' }],
    ['before the first frame', example1.subarray(0, 42), { code: 'cut', part: 'frames' }],
    ['inside the blocks', example2.subarray(0, 80), { code: 'cut', part: 'frames' }],
    ['length not known', flac({ frames: 0 }), { code: 'length-unknown' }],
    ['no frame', flac({ frames: 0 }, [], 0), { code: 'no-sound' }],
    ['rate 0', flac({ frames: 9, rate: 0 }), impossible('sample rate', 0)],
    ['3 bits', flac({ frames: 9, bits: 3 }), impossible('bits per sample', 3)],
    ['blocks of 15', flac({ frames: 9, block: 15 }), impossible('maximum block size', 15)],
    [
      'another block first',
      join(ascii('fLaC'), flacBlock(4, zeros(40), true)),
      { code: 'chunk-missing', chunk: 'STREAMINFO' },
    ],
    [
      'a short first block',
      join(ascii('fLaC'), flacBlock(0, zeros(20), true), zeros(40)),
      impossible('STREAMINFO size', 20),
    ],
  ])('%s', async (_, file, fault) => {
    expect(await headerOf(file)).toEqual(fault);
  });

  it('inside the sound, as far as the shortest frame tells', async () => {
    const whole = flac({ frames: 40960, leastFrame: 300 }, [], 2710);
    expect(await headerOf(whole)).toMatchObject({ frames: 40960, remarks: [] });
    const remarks = [{ code: 'sound-cut', promised: 2710, present: 2709 }];
    expect(await headerOf(whole.subarray(0, -1))).toMatchObject({ frames: 40960, remarks });
  });
});

function impossible(field: string, value: number) {
  return { code: 'impossible', field, value };
}
