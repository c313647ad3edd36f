import { describe, expect, test } from 'vitest';
import type { Instrument } from '../../src/instruments/instrument.ts';
import { calibrate } from '../../src/memory/calibrate.ts';
import type { Calibration } from '../../src/memory/calibration.ts';
import type { Reading } from '../../src/instruments/reading.ts';
import { instrumentWith, mask, playerOf, reading, sampleOf } from './hand-made.ts';

/** Samples of 1 000, 2 000 and 4 000 bytes in zones 0, 1 and 2; zone 3 belongs to all. */
const instrument = instrumentWith(
  [sampleOf('a', 500), sampleOf('b', 1_000), sampleOf('c', 2_000), sampleOf('noise', 50)],
  [[0], [1], [2], [3]],
  { id: 'low-strings' },
  [
    { name: 'Sustain', zones: [0, 1] },
    { name: 'Détaché', zones: [2] },
    { name: 'every articulation', zones: [3] },
  ],
);
const player = playerOf({});

const calibrationOf = (readings: readonly Reading[], of: Instrument = instrument): Calibration => {
  const { calibration, findings } = calibrate(of, player, readings, 'keepset.yaml');
  expect(findings).toEqual([]);
  return calibration;
};

/** Lines and residual of a fit. */
const fitOf = (readings: readonly Reading[]) => {
  const calibration = calibrationOf(readings);
  if (calibration.basis !== 'fitted') throw new Error('not fitted');
  return { lines: calibration.lines, residual: calibration.residual };
};

const statesOf = (readings: readonly Reading[], of: Instrument = instrument): string[] => {
  const calibration = calibrationOf(readings, of);
  if (calibration.basis !== 'fitted') throw new Error('not fitted');
  return calibration.states.map(({ zones }) => [...zones].map((one) => '.#'[one]).join(''));
};

test('no reading, nothing fitted', () => {
  expect(calibrationOf([])).toEqual({ basis: 'computed' });
});

describe('one reading', () => {
  test('of an empty copy is a fixed part, or part of the computed', () => {
    expect(calibrationOf([reading('empty', 600)])).toEqual({
      basis: 'fitted',
      readings: 1,
      lines: [
        { fixed: 600, factor: 1 },
        { fixed: 0, factor: 1 },
      ],
      residual: 0,
      states: [{ zones: mask('....'), bytes: 600 }],
    });
  });

  test('of a loaded copy is a factor, or a fixed part', () => {
    // Computed: 1 000 + 2 000 + 4 000 + 100 = 7 100; shown 8 875 = 1.25 x 7 100.
    expect(fitOf([reading('full', 8_875)])).toEqual({
      lines: [
        { fixed: 0, factor: 1.25 },
        { fixed: 1_775, factor: 1 },
      ],
      residual: 0,
    });
  });

  test('below what is computed', () => {
    // 3 550 = 0.5 x 7 100.
    expect(fitOf([reading('full', 3_550)]).lines).toEqual([
      { fixed: 0, factor: 0.5 },
      { fixed: -3_550, factor: 1 },
    ]);
  });

  test('of a state in which nothing is computed counts as empty', () => {
    const silent = instrumentWith([sampleOf('rom', 500, { present: false })], [[0]]);
    const { calibration } = calibrate(silent, player, [reading('full', 60)], null);
    expect(calibration).toMatchObject({
      lines: [
        { fixed: 60, factor: 1 },
        { fixed: 0, factor: 1 },
      ],
    });
  });
});

describe('several readings', () => {
  test('two are a line', () => {
    // (0, 600) and (7 100, 7 700).
    expect(fitOf([reading('empty', 600), reading('full', 7_700)])).toEqual({
      lines: [{ fixed: 600, factor: 1 }],
      residual: 0,
    });
  });

  test('three are the best line, with the worst difference', () => {
    // By hand, computed 0, 3 100 and 7 100 shown as 0, 3 400 and 7 100. Means 3 400 and 3 500; from
    // them x -3 400, -300, 3 700 and y -3 500, -100, 3 600. Products 11 900 000 + 30 000 + 13 320 000 =
    // 25 250 000; squares 11 560 000 + 90 000 + 13 690 000 = 25 340 000. Factor 0.996448...; fixed
    // 3 500 - 0.996448 x 3 400 = 112.0758. Differences: -112.08, 198.93, -87.13.
    const { lines, residual } = fitOf([
      reading('empty', 0),
      reading('sustain', 3_400),
      reading('full', 7_100),
    ]);
    expect(lines).toHaveLength(1);
    expect(lines[0].factor).toBeCloseTo(25_250 / 25_340, 12);
    expect(lines[0].fixed).toBeCloseTo(112.0758, 4);
    expect(residual).toBeCloseTo(198.9345, 4);
  });

  test('a fixed part below nothing is none', () => {
    // (3 100, 3 000) and (7 100, 7 100) cross 0 at -177.5. Through the origin: (3 100 x 3 000 + 7 100 x
    // 7 100) / (3 100 ^ 2 + 7 100 ^ 2) = 59 710 000 / 60 020 000 = 0.994835. Worst: 3 000 - 3 083.9887.
    const { lines, residual } = fitOf([reading('sustain', 3_000), reading('full', 7_100)]);
    expect(lines).toHaveLength(1);
    expect(lines[0].fixed).toBe(0);
    expect(lines[0].factor).toBeCloseTo(5_971 / 6_002, 12);
    expect(residual).toBeCloseTo(83.9887, 4);
  });

  test('less for more contradicts: the largest is believed, the others make the range', () => {
    const readings = [reading('empty', 9_000, 4), reading('full', 8_875, 5)];
    const { calibration, findings } = calibrate(instrument, player, readings, 'keepset.yaml');
    expect(findings).toEqual([
      {
        code: 'readings-contradict',
        severity: 'warning',
        file: 'keepset.yaml',
        at: { line: 5, column: 1 },
        args: { instrument: 'low-strings', used: 'full' },
      },
    ]);
    // Likely 1.25 x computed: 0 for the empty copy, which was shown as 9 000.
    expect(calibration).toMatchObject({
      readings: 2,
      lines: [
        { fixed: 0, factor: 1.25 },
        { fixed: 1_775, factor: 1 },
      ],
      residual: 9_000,
    });
  });

  test('the same shown for all is a line too', () => {
    expect(fitOf([reading('empty', 900), reading('full', 900)]).lines).toEqual([
      { fixed: 900, factor: 0 },
    ]);
  });

  test('two of one state say no more than one: the first counts, the other makes the range', () => {
    // 8 875 is 1.25 x 7 100, and the other is 8 875 - 710.
    const { lines, residual } = fitOf([reading('full', 8_875), reading('Full', 8_165)]);
    expect(lines).toEqual([
      { fixed: 0, factor: 1.25 },
      { fixed: 1_775, factor: 1 },
    ]);
    expect(residual).toBe(710);
    expect(fitOf([reading('full', 3_550), reading('Full', 8_165)]).lines[0].factor).toBe(0.5);
  });

  test('copies and zones are part of the computed, but for a copy that is empty', () => {
    const costly = playerOf({ perCopy: 500, perZone: 10 });
    const readings = [reading('empty', 600), reading('sustain', 4_230)];
    // Sustain with what belongs to all: 500 + 3 x 10 + 3 100 = 3 630; 4 230 less 600 is as much.
    expect(calibrate(instrument, costly, readings, null).calibration).toMatchObject({
      lines: [{ fixed: 600, factor: 1 }],
      residual: 0,
    });
  });
});

describe('what a reading is of', () => {
  test('an articulation, however it is written, with what belongs to all', () => {
    const names = [' SUSTAIN', 'detache', 'Empty', 'FULL', 'every articulation'];
    expect(names.flatMap((of) => statesOf([reading(of, 600)]))).toEqual([
      '##.#',
      '..##',
      '....',
      '####',
      '...#',
    ]);
  });

  test('a SoundFont preset by number, name or both', () => {
    const bank = instrumentWith([sampleOf('a', 10)], [[0], [0], [0], [0]], {}, [
      { name: '0:48 Strings', zones: [0] },
      { name: '8:48 Strings', zones: [1] },
      { name: '0:4', zones: [2] },
      { name: '0:5 0:48', zones: [3] },
    ]);
    const of = (name: string): string[] => statesOf([reading(name, 5)], bank);
    expect(of('0:48 strings')).toEqual(['#...']);
    // All that are called so; a name that looks like a number is still a name.
    expect(of('Strings')).toEqual(['##..']);
    expect(of('0:48')).toEqual(['#..#']);
    expect(of('8:48')).toEqual(['.#..']);
    expect(of('0:4')).toEqual(['..#.']);
  });

  test.each([
    ['sustian', 'Sustain'],
    ['ful', 'full'],
    ['tremolo', null],
  ])('%s is not there', (of, near) => {
    const readings = [reading(of, 900, 7), reading('empty', 600)];
    const { calibration, findings } = calibrate(instrument, player, readings, 'keepset.yaml');
    expect(findings).toEqual([
      {
        code: 'reading-articulation',
        severity: 'warning',
        file: 'keepset.yaml',
        at: { line: 7, column: 1 },
        args: { instrument: 'low-strings', articulation: of, near },
      },
    ]);
    expect(calibration).toMatchObject({ readings: 1, states: [{ bytes: 600 }] });
  });

  test('a preset that is nearly named', () => {
    const bank = instrumentWith([sampleOf('a', 10)], [[0]], {}, [
      { name: '0:48 Strings', zones: [0] },
    ]);
    const { calibration, findings } = calibrate(bank, player, [reading('Strngs', 5)], null);
    expect(findings[0]!.args).toMatchObject({ near: 'Strings' });
    expect(calibration).toEqual({ basis: 'computed' });
  });
});
