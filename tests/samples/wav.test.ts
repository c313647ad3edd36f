import { describe, expect, it, test } from 'vitest';
import { hex } from '../midi/hex.ts';
import { countReads, headerOf } from './counted.ts';
import { ascii, fmt, join, little, riff, smpl, wave, zeros, type Fmt } from './writers.ts';

/** A file by hand: "Multimedia Programming Interface and Data Specifications 1.0", chapter 3. */
const byHand = hex(`
  52494646 2C000000 57415645             # RIFF, 44 bytes, WAVE
  666D7420 10000000                      # fmt, 16 bytes
  0100 0200 80BB0000 00EE0200 0400 1000  # PCM, 2 channels, 48000 Hz, bytes a second, 4 a frame, 16 bits
  64617461 08000000                      # data, 8 bytes
  0000 0000 0100 FFFF                    # two frames
`);

const header = {
  format: 'wav',
  frames: 10,
  channels: 1,
  width: 2,
  widthAssumed: false,
  rate: 44100,
  loop: null,
  remarks: [],
};

const data = (bytes: number, size = bytes): Uint8Array => riff('data', zeros(bytes), size);

describe('a WAVE file', () => {
  it('made by hand is read in one read', async () => {
    const { result, reads } = await countReads(byHand);
    expect(result).toEqual({ ...header, frames: 2, channels: 2, rate: 48000 });
    expect(reads).toEqual([{ offset: 0, length: 52 }]);
  });

  it('of any length takes one read of 4 KiB when its sound comes last', async () => {
    const { result, reads } = await countReads(wave(fmt(), data(20000)));
    expect(result).toEqual({ ...header, frames: 10000 });
    expect(reads).toEqual([{ offset: 0, length: 4096 }]);
  });

  it('takes a second read when something stands behind a long sound', async () => {
    const { result, reads } = await countReads(wave(fmt(), data(20000), smpl([5, 9000])));
    expect(result).toEqual({ ...header, frames: 10000, loop: { start: 5, end: 9000 } });
    expect(reads).toEqual([
      { offset: 0, length: 4096 },
      { offset: 44 + 20000, length: 68 },
    ]);
  });

  it('may have its chunks in any order, unknown ones and odd lengths among them', async () => {
    const cue = riff('cue ', zeros(4));
    const odd = riff('LIST', ascii('INFOICMT\x01\0\0\0x'));
    expect(await headerOf(wave(data(20), odd, cue, smpl([0, 9]), fmt()))).toEqual({
      ...header,
      loop: { start: 0, end: 9 },
    });
  });

  it('may forget the pad byte behind data of odd length', async () => {
    const sound = riff('data', zeros(9)).subarray(0, 17);
    const file = wave(fmt({ bits: 8 }), sound, smpl([1, 7]));
    expect(await headerOf(file)).toMatchObject({ frames: 9, width: 1, loop: { start: 1, end: 7 } });
    const padded = wave(fmt({ bits: 8 }), data(9), smpl([1, 7]));
    expect(await headerOf(padded)).toMatchObject({ frames: 9, loop: { start: 1, end: 7 } });
  });
});

describe('widths and channels', () => {
  const guid = (tag: number, tail = '0000 0000 1000 8000 00AA00389B71') =>
    join(little(tag, 2), hex(tail));
  /** WAVEFORMATEXTENSIBLE, mmreg.h: 22 bytes more, valid bits, speakers, subformat. */
  const extensible = (tag: number, valid: number): Uint8Array =>
    join(little(22, 2), little(valid, 2), zeros(4), guid(tag));

  test.each<[string, Fmt, number, number]>([
    ['8 bits', { bits: 8 }, 1, 120],
    ['12 bits fill two bytes', { bits: 12 }, 2, 60],
    ['24 bits', { bits: 24 }, 3, 40],
    ['24 bits in four bytes', { bits: 24, block: 4 }, 4, 30],
    ['32 bits, six channels', { bits: 32, channels: 6 }, 4, 5],
    ['float', { tag: 3, bits: 32 }, 4, 30],
    ['double', { tag: 3, bits: 64 }, 8, 15],
    ['extensible PCM', { tag: 0xfffe, bits: 24, more: extensible(1, 24) }, 3, 40],
    ['extensible, 20 valid bits of 24', { tag: 0xfffe, bits: 24, more: extensible(1, 20) }, 3, 40],
    ['extensible float', { tag: 0xfffe, bits: 32, more: extensible(3, 32) }, 4, 30],
  ])('%s', async (_, format, width, frames) => {
    const { channels = 1 } = format;
    const result = await headerOf(wave(fmt(format), data(120)));
    expect(result).toMatchObject({ width, frames, channels, widthAssumed: false });
  });

  test.each([
    ['A-law', 6],
    ['mu-law', 7],
  ])('%s: a byte a frame, decoded to two', async (_, tag) => {
    const result = await headerOf(wave(fmt({ tag, bits: 8, channels: 2 }), data(120)));
    expect(result).toMatchObject({ frames: 60, width: 2, widthAssumed: true, remarks: [] });
  });

  it('believes width and channels where the bytes of a frame can not be', async () => {
    const result = await headerOf(wave(fmt({ channels: 2, block: 3 }), data(120)));
    const remarks = [{ code: 'frame-size', written: 3, taken: 4 }];
    expect(result).toMatchObject({ frames: 30, width: 2, remarks });
  });

  test.each([
    ['MPEG', { tag: 0x55 }, 'WAVE format 0x0055'],
    ['Vorbis in WAVE', { tag: 0x674f }, 'WAVE format 0x674F'],
    ['MPEG, extensible', { tag: 0xfffe, more: extensible(0x55, 16) }, 'WAVE format 0x0055'],
    [
      'another GUID',
      { tag: 0xfffe, more: join(zeros(8), guid(1, '0000 2107 D311 8644 C8C1CA000000')) },
      'WAVE subformat 010000002107d3118644c8c1ca000000',
    ],
  ])('%s is not read', async (_, format: Fmt, what) => {
    const result = await headerOf(wave(fmt(format), data(120)));
    expect(result).toEqual({ code: 'unsupported', what });
  });

  test.each<[string, Fmt, string, number]>([
    ['no channel', { channels: 0, block: 2 }, 'wChannels', 0],
    ['no rate', { rate: 0 }, 'dwSamplesPerSec', 0],
    ['no bits', { bits: 0 }, 'wBitsPerSample', 0],
    ['80 bits', { bits: 80 }, 'wBitsPerSample', 80],
    ['float of 24 bits', { tag: 3, bits: 24 }, 'wBitsPerSample', 24],
    ['extensible without its subformat', { tag: 0xfffe }, 'fmt size', 16],
  ])('%s', async (_, format, field, value) => {
    const result = await headerOf(wave(fmt(format), data(120)));
    expect(result).toEqual({ code: 'impossible', field, value });
  });
});

describe('sound compressed in blocks', () => {
  const blocks = (frames: number): Fmt => ({
    tag: 0x11,
    bits: 4,
    block: 256,
    more: join(little(2, 2), little(frames, 2)),
  });
  const fact = (frames: number): Uint8Array => riff('fact', little(frames, 4));

  test.each([
    ['a fact within the last block', [fact(900)], 512, 900],
    ['a fact that leaves the last block empty', [fact(1011)], 768, 1011],
    ['no fact', [], 512, 1010],
    ['a last block that is short', [], 500, 1010],
  ])('%s', async (_, facts, length, frames) => {
    const result = await headerOf(wave(fmt(blocks(505)), ...facts, data(length)));
    expect(result).toMatchObject({ frames, width: 2, widthAssumed: true, remarks: [] });
  });

  test.each([0, 505, 1516])('a fact of %i is not believed', async (written) => {
    const remarks = [{ code: 'frame-count', written, taken: 1515 }];
    const result = await headerOf(wave(fmt(blocks(505)), fact(written), data(768)));
    expect(result).toMatchObject({ frames: 1515, remarks });
  });

  it('says when the file is cut', async () => {
    const file = wave(fmt(blocks(505)), fact(5000), data(512, 2560));
    const remarks = [{ code: 'sound-cut', promised: 2560, present: 512 }];
    expect(await headerOf(file)).toMatchObject({ frames: 1010, remarks });
  });

  test.each([
    ['none in a block', 0, 256, 'wSamplesPerBlock', 0],
    ['too many for its bytes', 1281, 256, 'wSamplesPerBlock', 1281],
    ['no block', 505, 0, 'wBlockAlign', 0],
  ])('%s', async (_, frames, block, field, value) => {
    const file = wave(fmt({ ...blocks(frames), block }), data(512));
    expect(await headerOf(file)).toEqual({ code: 'impossible', field, value });
  });
});

describe('a size that was never filled in', () => {
  const sized = (riffSize: number, dataSize: number): Uint8Array => {
    const file = wave(fmt(), data(20, dataSize));
    file.set(little(riffSize, 4), 4);
    return file;
  };

  test.each([
    ['0 in both', 0, 0],
    ['0, the whole ends before the sound', 36, 0],
    ['2^32 - 1 in both', 0xffffffff, 0xffffffff],
    ['2^32 - 1 and 0', 0xffffffff, 0],
    ['a little under 2^31', 0x7ffff024, 0x7ffff000],
  ])('%s', async (_, riffSize, dataSize) => {
    const remarks = [{ code: 'size-unset' }];
    expect(await headerOf(sized(riffSize, dataSize))).toEqual({ ...header, remarks });
  });

  it('but 0 is empty when the whole goes on behind it', async () => {
    expect(await headerOf(wave(fmt(), data(0), smpl()))).toEqual({ code: 'no-sound' });
  });
});

describe('RF64 and BW64 (EBU Tech 3306, annex A.2; ITU-R BS.2088)', () => {
  const wide = (id: string, riffSize: number, dataSize: number, table = zeros(4)) =>
    join(
      ascii(id),
      little(0xffffffff, 4),
      ascii('WAVE'),
      riff('ds64', join(little(riffSize, 8), little(dataSize, 8), zeros(8), table)),
      fmt({ channels: 2, bits: 24 }),
    );
  const sound = riff('data', zeros(0), 0xffffffff);

  test.each(['RF64', 'BW64'])('%s of 6 GB takes one read', async (id) => {
    const bytes = 6 * 10 ** 9;
    const head = join(wide(id, bytes + 80, bytes), sound);
    const { result, reads } = await countReads(head, head.length + bytes);
    expect(result).toMatchObject({ frames: 10 ** 9, channels: 2, width: 3, remarks: [] });
    expect(reads).toHaveLength(1);
  });

  it('finds what stands behind the sound and behind a large chunk of its table', async () => {
    const table = join(little(1, 4), ascii('axml'), little(10, 8));
    const axml = riff('axml', zeros(10), 0xffffffff);
    const rest = join(axml, riff('data', zeros(60), 0xffffffff), smpl([2, 8]));
    const file = join(wide('BW64', 300, 60, table), rest);
    expect(await headerOf(file)).toMatchObject({ frames: 10, loop: { start: 2, end: 8 } });
  });

  it('runs to the end of the file when the wide size was never filled in', async () => {
    const file = join(wide('RF64', 0, 0), sound, zeros(60));
    expect(await headerOf(file)).toMatchObject({ frames: 10, remarks: [{ code: 'size-unset' }] });
  });

  it('believes a size below 4 GiB that stands at the chunk', async () => {
    const file = join(wide('RF64', 200, 600), riff('data', zeros(60)));
    expect(await headerOf(file)).toMatchObject({ frames: 10, remarks: [] });
  });
});

describe('loops ("New Multimedia Data Types and Data Techniques" 3.0, "Sample Chunk")', () => {
  const looped = (...chunks: Uint8Array[]) => headerOf(wave(fmt(), data(20), ...chunks));

  it('are given by their first and last frame; the first one counts', async () => {
    const byHand = hex(`
      736D706C 54000000                             # smpl, 84 bytes
      00000000 00000000 93580000 3C000000 00000000  # maker, product, 22675 ns a frame, key 60, fraction
      00000000 00000000 02000000 00000000           # SMPTE, two loops, no more data
      00000000 00000000 03000000 07000000 00000000 00000000  # forward, from frame 3, the last is 7
      01000000 00000000 01000000 02000000 00000000 00000000
    `);
    expect(await looped(byHand)).toMatchObject({ loop: { start: 3, end: 7 }, remarks: [] });
  });

  test.each([
    ['none', smpl(), null, []],
    ['of one frame', smpl([9, 9]), { start: 9, end: 9 }, []],
    [
      'that ends behind the sound',
      smpl([2, 10]),
      { start: 2, end: 9 },
      [{ code: 'loop-outside', start: 2, end: 10 }],
    ],
    [
      'that begins behind the sound',
      smpl([10, 12]),
      null,
      [{ code: 'loop-outside', start: 10, end: 12 }],
    ],
    ['backwards', smpl([5, 4]), null, [{ code: 'loop-outside', start: 5, end: 4 }]],
    ['promised only', riff('smpl', join(zeros(28), little(9, 4), zeros(4))), null, []],
  ])('%s', async (_, chunk, loop, remarks) => {
    expect(await looped(chunk)).toMatchObject({ frames: 10, loop, remarks });
  });
});

describe('cut and damaged', () => {
  test.each([
    [4, { code: 'cut', part: 'RIFF' }],
    [11, { code: 'cut', part: 'RIFF' }],
    [12, { code: 'cut', part: 'fmt ' }],
    [30, { code: 'cut', part: 'fmt ' }],
    [36, { code: 'cut', part: 'data' }],
    [43, { code: 'cut', part: 'data' }],
    [44, { code: 'cut', part: 'data' }],
    [47, { code: 'cut', part: 'data' }],
  ])('to %i bytes', async (length, fault) => {
    expect(await headerOf(byHand.subarray(0, length))).toEqual(fault);
  });

  it('inside the sound: the frames that are there', async () => {
    const remarks = [{ code: 'sound-cut', promised: 8, present: 5 }];
    expect(await headerOf(byHand.subarray(0, 49))).toMatchObject({ frames: 1, remarks });
  });

  it('behind the sound', async () => {
    const file = wave(fmt(), data(20), smpl([1, 2])).subarray(0, 80);
    const remarks = [{ code: 'chunk-cut', chunk: 'smpl' }];
    expect(await headerOf(file)).toMatchObject({ frames: 10, loop: null, remarks });
  });

  it('a frame that is not whole', async () => {
    const remarks = [{ code: 'partial-frame', bytes: 1 }];
    expect(await headerOf(wave(fmt(), data(21)))).toEqual({ ...header, remarks });
  });

  it('chunks that are not there', async () => {
    expect(await headerOf(wave(data(20)))).toEqual({ code: 'chunk-missing', chunk: 'fmt ' });
    expect(await headerOf(wave(fmt()))).toEqual({ code: 'no-sound' });
    expect(await headerOf(wave(fmt(), data(0)))).toEqual({ code: 'no-sound' });
    const short = riff('fmt ', zeros(14));
    expect(await headerOf(wave(short, data(20)))).toEqual({
      code: 'impossible',
      field: 'fmt size',
      value: 14,
    });
  });

  it('a row of chunks far apart ends the search', async () => {
    const far = Array.from({ length: 40 }, () => riff('JUNK', zeros(5000)));
    const before = await countReads(wave(...far, fmt(), data(20)));
    expect(before.result).toEqual({ code: 'scattered' });
    expect(before.reads).toHaveLength(12);
    const behind = await countReads(wave(fmt(), data(20), ...far, smpl([1, 2])));
    expect(behind.result).toEqual({ ...header, remarks: [{ code: 'search-stopped' }] });
    expect(behind.reads).toHaveLength(12);
  });
});
