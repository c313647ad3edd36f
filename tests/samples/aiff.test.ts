import { describe, expect, it, test } from 'vitest';
import { float80 } from '../../src/samples/float80.ts';
import { hex } from '../midi/hex.ts';
import { countReads, headerOf } from './counted.ts';
import { ascii, big, comm, form, iff, join, ssnd, zeros } from './writers.ts';

/** A file by hand: AIFF 1.3, "The Common Chunk", "The Sound Data Chunk". */
const byHand = hex(`
  464F524D 0000003E 41494646        # FORM, 62 bytes, AIFF
  434F4D4D 00000012                 # COMM, 18 bytes
  0002 00000002 0018 400EBB80000000000000  # 2 channels, 2 frames, 24 bits, 48000 Hz
  53534E44 00000014                 # SSND, 20 bytes
  00000000 00000000                 # offset, block size
  000000 000001 000002 FFFFFF       # two frames
`);

const header = {
  format: 'aiff',
  frames: 10,
  channels: 1,
  width: 2,
  widthAssumed: false,
  rate: 44100,
  loop: null,
  remarks: [],
};

const sound = ssnd(zeros(20));
const ten = { frames: 10 };

describe('an AIFF file', () => {
  it('made by hand is read in one read', async () => {
    const { result, reads } = await countReads(byHand);
    expect(result).toEqual({ ...header, frames: 2, channels: 2, width: 3, rate: 48000 });
    expect(reads).toEqual([{ offset: 0, length: byHand.length }]);
  });

  it('takes a second read when something stands behind a long sound', async () => {
    const file = form('AIFF', comm({ frames: 10000 }), ssnd(zeros(20000)), iff('NAME', zeros(3)));
    const { result, reads } = await countReads(file);
    expect(result).toEqual({ ...header, frames: 10000 });
    expect(reads.map(({ offset }) => offset)).toEqual([0, 54 + 20000]);
  });

  it('may have its chunks in any order, and odd lengths among them', async () => {
    expect(await headerOf(form('AIFF', iff('ANNO', ascii('abc')), sound, comm(ten)))).toEqual(
      header,
    );
  });

  it('has sound that begins where the offset says', async () => {
    const file = form('AIFF', comm(ten), ssnd(zeros(26), 6));
    expect(await headerOf(file)).toEqual(header);
    const short = form('AIFF', comm(ten), ssnd(zeros(20), 6));
    const remarks = [{ code: 'frame-count', written: 10, taken: 7 }];
    expect(await headerOf(short)).toEqual({ ...header, frames: 7, remarks });
  });

  test.each([
    [1, 1],
    [8, 1],
    [12, 2],
    [20, 3],
    [32, 4],
  ])('%i bits fill %i bytes', async (bits, width) => {
    const file = form('AIFF', comm({ frames: 10, bits }), ssnd(zeros(10 * width)));
    expect(await headerOf(file)).toEqual({ ...header, width });
  });
});

describe('AIFF-C (draft of 26 August 1991, "Common Chunk")', () => {
  test.each([
    ['NONE', 16, 2, 2, false],
    ['NONE', 24, 3, 3, false],
    ['twos', 16, 2, 2, false],
    ['sowt', 24, 3, 3, false],
    ['fl32', 32, 4, 4, false],
    ['FL32', 16, 4, 4, false],
    ['fl64', 64, 8, 8, false],
    ['in24', 16, 3, 3, false],
    ['in32', 16, 4, 4, false],
    ['raw ', 8, 1, 1, false],
    ['ulaw', 16, 1, 2, true],
    ['ALAW', 16, 1, 2, true],
  ])(
    '%s, %i bits: %i bytes in the file, %i decoded',
    async (type, bits, stored, width, assumed) => {
      const file = form('AIFC', comm({ frames: 10, bits, type }), ssnd(zeros(10 * stored)));
      expect(await headerOf(file)).toEqual({ ...header, width, widthAssumed: assumed });
    },
  );

  test.each([
    ['ima4', 'AIFF-C ima4'],
    ['\x1b[2J', 'AIFF-C \\x1b[2J'],
  ])('%j is not read', async (type, what) => {
    const file = form('AIFC', comm({ frames: 10, type }), sound);
    expect(await headerOf(file)).toEqual({ code: 'unsupported', what });
  });
});

describe('loops (AIFF 1.3, "The Marker Chunk", "The Instrument Chunk")', () => {
  /** Markers by id, place and name. */
  const mark = (...marks: readonly (readonly [number, number, string])[]): Uint8Array =>
    iff(
      'MARK',
      join(
        big(marks.length, 2),
        ...marks.map(([id, place, name]) => {
          const text = join(Uint8Array.of(name.length), ascii(name));
          return join(big(id, 2), big(place, 4), text, zeros(text.length % 2));
        }),
      ),
    );
  /** Two loops of play mode, begin and end. */
  const inst = (...loops: readonly number[]): Uint8Array =>
    iff('INST', join(zeros(8), ...loops.map((value) => big(value, 2))));
  const looped = (...chunks: Uint8Array[]) => headerOf(form('AIFF', comm(ten), sound, ...chunks));
  const marks = mark([1, 2, ''], [2, 8, 'end'], [3, 9, 'last'], [4, 10, 'behind'], [9, 99, 'no']);

  it('lie between two markers, which stand before the frames they number', async () => {
    const markByHand = hex(`
      4D41524B 00000016          # MARK, 22 bytes
      0002                       # two markers
      0001 00000003 04 62656721 00  # id 1, before frame 3, "beg!" and a pad byte
      0002 00000008 01 65        # id 2, before frame 8, "e"
    `);
    const instByHand = hex(`
      494E5354 00000014          # INST, 20 bytes
      3C 00 00 7F 01 7F 0000     # key, detune, keys, velocities, gain
      0001 0001 0002             # sustain: forward, from marker 1 to marker 2
      0000 0000 0000             # release: none
    `);
    const result = await looped(markByHand, instByHand);
    expect(result).toEqual({ ...header, loop: { start: 3, end: 7 } });
  });

  test.each([
    ['the sustain loop', inst(1, 1, 2, 2, 1, 3), { start: 2, end: 7 }, []],
    ['the release loop when no other is', inst(0, 0, 0, 1, 1, 3), { start: 2, end: 8 }, []],
    ['up to the end', inst(1, 1, 4, 0, 0, 0), { start: 2, end: 9 }, []],
    ['no loop', inst(0, 1, 2, 0, 1, 2), null, []],
    ['a marker that is not there', inst(1, 1, 7, 0, 0, 0), null, [{ code: 'loop-unread' }]],
    ['backwards', inst(1, 2, 1, 0, 0, 0), null, [{ code: 'loop-outside', start: 8, end: 1 }]],
    [
      'behind the end',
      inst(1, 1, 9, 0, 0, 0),
      { start: 2, end: 9 },
      [{ code: 'loop-outside', start: 2, end: 98 }],
    ],
  ])('%s', async (_, chunk, loop, remarks) => {
    expect(await looped(marks, chunk)).toEqual({ ...header, loop, remarks });
  });

  it('without markers', async () => {
    const remarks = [{ code: 'loop-unread' }];
    expect(await looped(inst(1, 1, 2, 0, 0, 0))).toEqual({ ...header, remarks });
  });
});

describe('cut, damaged, never finished', () => {
  test.each([
    [4, { code: 'cut', part: 'FORM' }],
    [12, { code: 'cut', part: 'COMM' }],
    [30, { code: 'cut', part: 'COMM' }],
    [38, { code: 'cut', part: 'SSND' }],
    [50, { code: 'cut', part: 'SSND' }],
    [59, { code: 'cut', part: 'SSND' }],
  ])('to %i bytes', async (length, fault) => {
    expect(await headerOf(byHand.subarray(0, length))).toEqual(fault);
  });

  it('inside the sound: the frames that are there', async () => {
    const remarks = [{ code: 'sound-cut', promised: 12, present: 7 }];
    expect(await headerOf(byHand.subarray(0, 61))).toMatchObject({ frames: 1, remarks });
  });

  test.each([
    ['0 frames over a sound', 0, 28, [{ code: 'frame-count', written: 0, taken: 10 }]],
    ['a size beyond any file', 0x1fc00000, 0x7f000008, [{ code: 'size-unset' }]],
  ])('%s', async (_, frames, size, remarks) => {
    const file = form('AIFF', comm({ frames }), ssnd(zeros(20), 0, size));
    expect(await headerOf(file)).toEqual({ ...header, remarks });
  });

  it('fewer frames than the sound has bytes for: COMM counts', async () => {
    const file = form('AIFF', comm({ frames: 4 }), sound);
    const remarks = [{ code: 'frame-count', written: 4, taken: 4 }];
    expect(await headerOf(file)).toEqual({ ...header, frames: 4, remarks });
  });

  test.each([
    ['no COMM', [sound], { code: 'chunk-missing', chunk: 'COMM' }],
    ['no SSND', [comm(ten)], { code: 'no-sound' }],
    ['no frame', [comm({ frames: 0 }), ssnd(zeros(0))], { code: 'no-sound' }],
    ['a short COMM', [iff('COMM', zeros(10)), sound], impossible('ckSize', 10)],
    ['no channel', [comm({ ...ten, channels: 0 }), sound], impossible('numChannels', 0)],
    ['no bits', [comm({ ...ten, bits: 0 }), sound], impossible('sampleSize', 0)],
    ['no rate', [rated('0000 0000000000000000'), sound], impossible('sampleRate', 0)],
    ['a rate below 0', [rated('C00E AC44000000000000'), sound], impossible('sampleRate', -44100)],
    ['an infinite rate', [rated('7FFF 8000000000000000'), sound], impossible('sampleRate', 0)],
  ])('%s', async (_, chunks, fault) => {
    expect(await headerOf(form('AIFF', ...chunks))).toEqual(fault);
  });
});

function impossible(field: string, value: number) {
  return { code: 'impossible', field, value };
}

function rated(rate: string): Uint8Array {
  return iff('COMM', join(big(1, 2), big(10, 4), big(16, 2), hex(rate)));
}

describe('80-bit numbers (IEEE 754-1985, extended)', () => {
  test.each([
    ['3FFF 8000000000000000', 1],
    ['BFFF 8000000000000000', -1],
    ['4000 C000000000000000', 3],
    ['400E AC44000000000000', 44100],
    ['4010 BB80000000000000', 192000],
    ['3FFE 8000000000000000', 0.5],
    // 22254 + 6/11, an old AIFF rate: the mantissa is the value times 2^49, rounded to 64 bits.
    ['400D ADDD1745D1745D17', 22254 + 6 / 11],
    ['0000 0000000000000000', 0],
    ['7FFF 8000000000000000', Infinity],
    ['FFFF 8000000000000000', -Infinity],
    ['7FFF C000000000000000', NaN],
  ])('%s', (bytes, value) => {
    expect(float80(hex(bytes))).toBe(value);
  });
});
