import { expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import type { Files } from '../../../src/terms/files.ts';
import { trimBank } from '../../../src/trim/soundfont/trim-bank.ts';
import { ascii, join, u32 } from '../../instruments/soundfont/bank-bytes.ts';
import { refusal } from '../../instruments/soundfont/reading.ts';
import type { Generator, ZonePlan } from '../../oracle/soundfont-bytes.ts';
import { bytesOfPlan, type TrimPlan } from './bank.ts';
import { bankPath, everything, keeping, note, trimPlan } from './trimming.ts';

const plain: TrimPlan = {
  presets: [{ name: 'p', bank: 0, program: 0, zones: [{ generators: [[41, 0]] }] }],
  instruments: [{ name: 'i', zones: [{ generators: [[53, 0]] }] }],
  samples: [{ start: 0, end: 100 }],
  points: 146,
};

test('planning reads the lists and no sound, however large the rest is', async () => {
  const plan = { ...plain, info: [['zzzz', new Uint8Array(200_000)]] as const, points: 300_000 };
  const files = new MemoryFiles({ [bankPath]: bytesOfPlan(plan) });
  const trimmed = await trimBank(files, bankPath, keeping([0], [0]), note);
  expect(files.bytesRead(bankPath)).toBeLessThan(2000);
  expect(trimmed.bytesBefore).toBe(800_000 + bytesOfPlan({ ...plain, points: 1 }).length - 2 + 8);
  expect(trimmed.files.map(({ path }) => path)).toEqual([bankPath]);
});

/** Bytes, then zeros that nobody may read, then bytes: a bank with more sound than memory holds. */
const sparse = (front: Uint8Array, zeros: number, back: Uint8Array): Files => {
  const size = front.length + zeros + back.length;
  const read = (offset: number, length: number): Promise<Uint8Array> => {
    if (offset + length <= front.length)
      return Promise.resolve(front.slice(offset, offset + length));
    const at = offset - front.length - zeros;
    if (at < 0) return Promise.reject(new Error('the sound was read'));
    return Promise.resolve(back.slice(at, at + length));
  };
  return {
    info: () => Promise.resolve({ kind: 'file', size }),
    read: (_path, offset = 0, length = size) => read(offset, length),
    open: (_path, use) => use({ size, read }),
    list: () => Promise.resolve([]),
  };
};

/** A bank of as many points as there is room for, less the bytes left free. */
const hugeBank = (free: number) => {
  const small = bytesOfPlan({ ...plain, points: 1, samples: [{ start: 0, end: 0x7fff_ff00 }] });
  const smpl = Buffer.from(small).indexOf('smpl');
  const sound = Math.floor((0xffff_ffff + 8 - small.length + 2 - free) / 2) * 2;
  const back = small.slice(smpl + 10);
  const grown = sound - 2;
  const front = join(small.subarray(0, smpl + 4), u32(sound), new Uint8Array(4));
  const size = (at: number): number => Buffer.from(small).readUInt32LE(at);
  front.set(u32(size(4) + grown), 4);
  const sdta = Buffer.from(small).indexOf('sdta') - 4;
  front.set(u32(size(sdta) + grown), sdta);
  // The one sample takes all the sound there is.
  back.set(u32(sound / 2 - 46), back.length - 92 + 24);
  return sparse(front, sound - 4, back);
};

test('more than 4 GiB are refused before anything is written', async () => {
  const finding = await refusal(trimBank(hugeBank(0), bankPath, keeping([0], [0]), note));
  expect(finding).toMatchObject({ code: 'trim-too-large', file: bankPath });
  const { files } = await trimBank(hugeBank(100), bankPath, keeping([0], [0]), note);
  const length = files[0]!.pieces.map((piece) =>
    piece.kind === 'bytes' ? piece.bytes.length : piece.length,
  );
  expect(length.reduce((a, b) => a + b)).toBeGreaterThan(0xffff_ff00);
});

const wide = (zones: number, perZone: number, sample: number): ZonePlan[] =>
  Array.from({ length: zones }, (): ZonePlan => ({
    generators: [
      ...Array.from({ length: perZone - 1 }, (_, i): Generator => [17, i]),
      [53, sample],
    ],
  }));

test('indices are unsigned: 65 535 generators (7.7)', async () => {
  const instruments = [
    { name: 'goes', zones: wide(1, 2, 0) },
    { name: 'stays', zones: wide(1007, 65, 0) },
    { name: 'last', zones: wide(1, 78, 0) },
  ];
  const plan = { ...plain, instruments };
  const presets = [
    {
      ...plain.presets[0]!,
      zones: [0, 1, 2].map((i): ZonePlan => ({ generators: [[41, i]] })),
    },
  ];
  const all = await trimPlan({ ...plan, presets }, everything({ ...plan, presets }));
  expect(all.before.instruments).toEqual(all.after.instruments);
  const last = await trimPlan({ ...plan, presets }, keeping([1008], [2]));
  expect(last.after.instruments[0]!.zones).toEqual(all.before.instruments[2]!.zones);
});

test('places that would need more generators than an index can name are refused', async () => {
  const presets = Array.from({ length: 22_000 }, (_, i) => ({
    ...{ name: 'p', bank: i, program: i % 2 },
    zones: [{ generators: [[41, 0]] }] as ZonePlan[],
  }));
  const plan = { ...plain, presets };
  const finding = await refusal(trimPlan(plan, keeping([0], [0], [0, 1])));
  expect(finding).toMatchObject({ code: 'bank-too-large', args: { chunk: 'pgen' } });
  expect((await trimPlan(plan, keeping([0], [0], [0]))).after.presets).toHaveLength(11_000);
});

test('what is no bank is refused as when reading it', async () => {
  const files = new MemoryFiles({ [bankPath]: ascii('RIFF\x04\0\0\0WAVE') });
  const finding = await refusal(trimBank(files, bankPath, keeping([0], [0]), note));
  expect(finding.code).toBe('bank-not-a-soundfont');
});
