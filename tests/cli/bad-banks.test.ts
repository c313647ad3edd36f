import { mkdir, truncate, writeFile } from 'node:fs/promises';
import { describe, expect } from 'vitest';
import { operators, range, writeBank, type BankPlan } from '../oracle/soundfont-bytes.ts';
import { bank, bankPlan, plainCue } from '../jobs/small-score.ts';
import { expectError, keepset } from './keepset.ts';
import { hasPipes, makePipe, test } from './material.ts';

/** A bank whose last zone asks for a sample that is not there. */
const withWrongSample = (): Uint8Array => {
  const [keys, strings] = bankPlan.instruments;
  const wrong = {
    generators: [
      [operators.keyRange, range(0, 127)],
      [operators.sampleId, 99],
    ] as const,
  };
  const plan: BankPlan = {
    ...bankPlan,
    instruments: [keys!, { ...strings!, zones: [...strings!.zones, wrong] }],
  };
  return writeBank(plan);
};

/** The bank with two bytes in a list replaced: record and offset as in SoundFont 2.04, section 7. */
const withWord = (list: string, offset: number, value: number): Uint8Array => {
  const bytes = Uint8Array.from(bank());
  const start = Buffer.from(bytes).indexOf(list, 0, 'latin1') + 8;
  bytes[start + offset] = value & 0xff;
  bytes[start + offset + 1] = value >> 8;
  return bytes;
};

const whole = bank().length;

/** Each is a bank that can't be trusted; `make` puts it at a path. */
const bad: readonly {
  readonly what: string;
  readonly code: string;
  readonly make: (path: string) => Promise<unknown>;
}[] = [
  { what: 'nothing', code: 'path-missing', make: () => Promise.resolve() },
  { what: 'a folder', code: 'path-not-a-file', make: (path) => mkdir(path) },
  ...(hasPipes ? [{ what: 'a named pipe', code: 'path-not-a-file', make: makePipe }] : []),
  { what: 'an empty file', code: 'bank-not-a-soundfont', make: (path) => writeFile(path, '') },
  { what: 'a text', code: 'bank-not-a-soundfont', make: (path) => writeFile(path, 'Dear diary') },
  { what: 'a cue', code: 'bank-not-a-soundfont', make: (path) => writeFile(path, plainCue()) },
  {
    what: 'a bank without its last byte',
    code: 'bank-truncated',
    make: (path) => writeFile(path, bank().subarray(0, whole - 1)),
  },
  {
    what: 'half a bank',
    code: 'bank-truncated',
    make: (path) => writeFile(path, bank().subarray(0, whole >> 1)),
  },
  {
    what: 'the first eight bytes of a bank',
    code: 'bank-not-a-soundfont',
    make: (path) => writeFile(path, bank().subarray(0, 8)),
  },
  {
    what: 'a sample number that is not there',
    code: 'bank-index',
    make: (path) => writeFile(path, withWrongSample()),
  },
  {
    what: 'a preset whose zones begin behind the last one',
    code: 'bank-index',
    // The second preset's wPresetBagNdx, 24 bytes into its record of 38 (section 7.2).
    make: (path) => writeFile(path, withWord('phdr', 38 + 24, 9999)),
  },
  {
    what: 'an instrument whose zones begin behind the last one',
    code: 'bank-index',
    // The second instrument's wInstBagNdx, 20 bytes into its record of 22 (section 7.6).
    make: (path) => writeFile(path, withWord('inst', 22 + 20, 9999)),
  },
  {
    what: 'a later version',
    code: 'bank-version',
    make: (path) => writeFile(path, withWord('ifil', 0, 3)),
  },
  {
    what: 'a terabyte of nothing',
    code: 'bank-not-a-soundfont',
    make: async (path) => {
      await writeFile(path, '');
      await truncate(path, 2 ** 40);
    },
  },
];

test.for(bad)('$what as a bank', async ({ code, make }, { score }) => {
  await make(score.at('bad.sf2'));
  const before = await score.state();
  const args = ['plan', 'cues', '-i', 'bad.sf2', '-o', 'keep.json'];
  const result = await keepset(args, { cwd: score.path });
  expect(result).toMatchObject({ code: 2, stdout: '' });
  const where = /^ {2}--> bad\.sf2( \(byte 0x[0-9a-f]+\))?$/m.exec(result.stderr);
  expectError(result, code, where?.[0].slice(6) ?? 'bad.sf2');
  expect(result.stderr.split('\n')).toHaveLength(4);
  expect(await score.state()).toEqual(before);
});

describe('a preset that is not there', () => {
  test.for([
    { source: 'bank.sf2#0:9', named: '0:9' },
    { source: 'bank.sf2#128:0', named: '128:0' },
  ])('$source', async ({ source, named }, { score }) => {
    const before = await score.state();
    const args = ['plan', 'cues', '-i', source, '-o', 'keep.json'];
    const result = await keepset(args, { cwd: score.path });
    expect(result).toMatchObject({ code: 2, stdout: '' });
    expectError(result, 'preset-missing', 'bank.sf2');
    expect(result.stderr).toContain(named);
    expect(result.stderr).toContain('0:0');
    expect(await score.state()).toEqual(before);
  });
});

test('a # that is part of the name', async ({ score }) => {
  await score.write({ 'take #2.sf2': bank() });
  const args = ['plan', 'cues', '-i', 'take #2.sf2'];
  expect(await keepset(args, { cwd: score.path })).toMatchObject({ code: 0 });
});
