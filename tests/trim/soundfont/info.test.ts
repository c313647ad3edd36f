import { describe, expect, test } from 'vitest';
import { ascii, type Part } from '../../instruments/soundfont/bank-bytes.ts';
import type { TrimPlan } from './bank.ts';
import { keeping, note, trimPlan } from './trimming.ts';

/** Sections 5.10 and 5.11 of SoundFont 2.04: texts end with one or two NULs, their size is even. */
const infoOf = async (...info: readonly Part[]) => {
  const plan: TrimPlan = {
    info,
    presets: [{ name: 'p', bank: 0, program: 0, zones: [{ generators: [[41, 0]] }] }],
    instruments: [{ name: 'i', zones: [{ generators: [[53, 0]] }] }],
    samples: [{ start: 0, end: 100 }],
    points: 146,
  };
  const { after } = await trimPlan(plan, keeping([0], [0]));
  return after.info.map(({ id, data }) => [id, Buffer.from(data).toString('latin1')] as const);
};
const textOf = async (id: string, ...info: readonly Part[]): Promise<string> => {
  const found = (await infoOf(...info)).filter((chunk) => chunk[0] === id);
  return found.map(([, text]) => text).join('|');
};
const noteEnd = note.length % 2 === 0 ? '\0\0' : '\0';

test('all chunks stay in their order, unknown and odd ones and lists too', async () => {
  const kept = [
    ['INAM', 'A bank\0\0'],
    ['zzzz', 'odd'],
    ['ICOP', 'by \xe9\0\0\0\0'],
    ['LIST', 'abcddataofalist!'],
    ['INAM', 'twice\0'],
    ['ICRD', ''],
  ] as const;
  expect(await infoOf(...kept.map(([id, text]): Part => [id, ascii(text)]))).toEqual([
    ['ifil', '\x02\0\x01\0'],
    ...kept,
    ['ISFT', 'keepset\0'],
    ['ICMT', note + noteEnd],
  ]);
});

test('what is changed stays in its place', async () => {
  const info = await infoOf(['ICMT', ascii('a\0')], ['ISFT', ascii('b\0')], ['ICOP', ascii('c\0')]);
  expect(info.map(([id]) => id)).toEqual(['ifil', 'ICMT', 'ISFT', 'ICOP']);
});

describe('ISFT names this tool as the last one', () => {
  test.each([
    ['maker\0', 'maker:keepset\0'],
    ['maker:other\0', 'maker:keepset\0'],
    ['maker 2\0', 'maker 2:keepset\0'],
    ['make:a:b\0', 'make:keepset\0\0'],
    [':other\0', 'keepset\0'],
    ['', 'keepset\0'],
    ['no nul', 'no nul:keepset\0\0'],
    ['m\0:hidden\0', 'm:keepset\0'],
  ])('%j', async (before, after) => {
    expect(await textOf('ISFT', ['ISFT', ascii(before)])).toBe(after);
  });

  test('in no more than 256 bytes', async () => {
    const after = await textOf('ISFT', ['ISFT', ascii('m'.repeat(5000))]);
    expect(after).toBe(`${'m'.repeat(247)}:keepset\0`);
  });
});

describe('ICMT says what was done', () => {
  test.each([
    ['Free to use.\0\0', `Free to use.\n${note}`],
    ['', note],
    ['\0\0', note],
    ['no nul', `no nul\n${note}`],
    ['caf\xe9\r\nbar\0', `caf\xe9\r\nbar\n${note}`],
  ])('%j', async (before, after) => {
    const text = await textOf('ICMT', ['ICMT', ascii(before)]);
    expect(text).toBe(after + (after.length % 2 === 0 ? '\0\0' : '\0'));
  });

  test('in no more than 65 536 bytes: else the comment stays as it is', async () => {
    const room = 65_535 - note.length - 1;
    const fits = await textOf('ICMT', ['ICMT', ascii('c'.repeat(room))]);
    expect(fits).toBe(`${'c'.repeat(room)}\n${note}\0`);
    expect(fits).toHaveLength(65_536);
    for (const size of [room + 1, 65_536, 70_001]) {
      expect(await textOf('ICMT', ['ICMT', ascii('c'.repeat(size))])).toBe('c'.repeat(size));
    }
  });
});
