import { property, assert, uniqueArray, record, constantFrom, integer, oneof } from 'fast-check';
import { describe, expect, test } from 'vitest';
import { patchTests } from '../../../src/instruments/soundfont/patch-tests.ts';
import { patchValue } from '../../../src/instruments/program.ts';

interface Numbers {
  readonly bank: number;
  readonly program: number;
}

/** The preset that a patch leads to, step by step as FluidSynth 2.3.1 looks for it; null: silence. */
const resolve = (presets: readonly Numbers[], bank: number, program: number): Numbers | null => {
  const find = (b: number, p: number): Numbers | null =>
    presets.find((one) => one.bank === b && one.program === p) ?? null;
  if (bank === 128) return find(128, program) ?? find(128, 0);
  return find(bank, program) ?? find(0, program) ?? find(0, 0);
};

/** The presets whose tests accept a patch. */
const accepting = (presets: readonly Numbers[], bank: number, program: number) => {
  const value = patchValue(bank, program);
  const tests = patchTests(presets);
  return presets.filter((_, i) => tests[i]!.some(({ lo, hi }) => value >= lo && value <= hi));
};

const piano = { bank: 0, program: 0 };
const strings = { bank: 0, program: 48 };
const slowStrings = { bank: 8, program: 48 };
const kit = { bank: 128, program: 0 };
const jazzKit = { bank: 128, program: 32 };
const presets = [piano, strings, slowStrings, kit, jazzKit];

describe('a patch that no preset has', () => {
  test.each<
    [
      where: string,
      bank: number,
      program: number,
      found: Numbers | null,
      among?: readonly Numbers[],
    ]
  >([
    ['its own preset', 8, 48, slowStrings],
    ['the same program in bank 0', 9, 48, strings],
    ['also from the last bank', 16_383, 48, strings],
    ['piano, without the program in bank 0', 0, 49, piano],
    ['piano, from another bank', 8, 49, piano],
    ['a kit of its own', 128, 32, jazzKit],
    ['the standard kit', 128, 33, kit],
    ['never a melodic preset from a drum patch', 128, 48, null, [piano, strings]],
    ['never a kit from a melodic patch', 0, 32, null, [kit, jazzKit]],
    ['silence without a piano', 0, 1, null, [strings]],
    ['nothing falls back to another bank', 0, 48, null, [slowStrings]],
  ])('goes to %s', (_where, bank, program, expected, among = presets) => {
    expect(resolve(among, bank, program)).toEqual(expected);
    expect(accepting(among, bank, program)).toEqual(expected === null ? [] : [expected]);
  });
});

test('tests carry no doubt, ascend and do not touch each other', () => {
  for (const tests of patchTests(presets)) {
    for (const [i, { lo, hi, doubt }] of tests.entries()) {
      expect(doubt).toBe(0);
      expect(hi).toBeGreaterThanOrEqual(lo);
      if (i > 0) expect(lo).toBeGreaterThan(tests[i - 1]!.hi + 1);
    }
  }
});

test('numbers that no message can choose are never open', () => {
  const odd = [
    { bank: 16_384, program: 0 },
    { bank: 65_535, program: 5 },
    { bank: 0, program: 128 },
    { bank: 128, program: 65_535 },
  ];
  expect(patchTests([piano, ...odd]).slice(1)).toEqual([[], [], [], []]);
  expect(patchTests([piano, ...odd])[0]).toEqual(patchTests([piano])[0]);
});

test('one preset answers each patch, the one a search finds: any banks', () => {
  const bank = oneof(
    constantFrom(0, 1, 8, 127, 128, 129, 16_383, 16_384),
    integer({ max: 65_535, min: 0 }),
  );
  const program = oneof(constantFrom(0, 1, 48, 127, 128), integer({ min: 0, max: 200 }));
  const numbers = record({ bank, program });
  const some = uniqueArray(numbers, {
    maxLength: 12,
    selector: (one) => `${String(one.bank)}:${String(one.program)}`,
  });
  const asked = record({
    bank: oneof(constantFrom(0, 1, 8, 127, 128, 129, 16_383), integer({ min: 0, max: 16_383 })),
    program: integer({ min: 0, max: 127 }),
  });
  assert(
    property(some, asked, (bankPresets, patch) => {
      const found = resolve(bankPresets, patch.bank, patch.program);
      expect(accepting(bankPresets, patch.bank, patch.program)).toEqual(
        found === null ? [] : [found],
      );
      for (const one of bankPresets) {
        if (one.bank > 16_383 || one.program > 127) continue;
        expect(accepting(bankPresets, one.bank, one.program)).toEqual([one]);
      }
    }),
    { numRuns: 500 },
  );
});
