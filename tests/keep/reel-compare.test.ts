import { describe, expect, test } from 'vitest';
import { compareReadings, type ComparedSubject } from '../../src/keep/reel/compare.ts';
import { calibrate } from '../../src/memory/calibrate.ts';
import { computed } from '../../src/memory/calibration.ts';
import type { LoadedReading } from '../../src/memory/readings/read-loaded.ts';
import { instrumentWith, mask, playerOf, reading, sampleOf } from '../memory/hand-made.ts';

/** Two bytes a frame: 1000 and 3000 bytes. */
const instrument = (scale = 1) =>
  instrumentWith([sampleOf('a', 500 * scale), sampleOf('b', 1500 * scale)], [[0], [1]]);

const shared = playerOf({ id: 'p', perCopy: 100 });
const alone = playerOf({ id: 'q', shares: 'copy', perZone: 10 });

const subjects: readonly ComparedSubject[] = [
  {
    id: 'horns',
    loadable: { instrument: instrument(), player: shared, calibration: computed },
    need: { kind: 'shared', zones: mask('##'), copies: new Set(['Hn 1', 'Hn 2']) },
  },
  {
    id: 'tuba',
    loadable: { instrument: instrument(10), player: shared, calibration: computed },
    need: { kind: 'shared', zones: mask('.#'), copies: new Set(['Tuba']) },
  },
  {
    id: 'strings',
    loadable: { instrument: instrument(), player: alone, calibration: computed },
    need: {
      kind: 'own',
      copies: new Map([
        ['Vn', mask('##')],
        ['Va', mask('#.')],
        ['Vc', mask('..')],
      ]),
    },
  },
];

const row = (name: string, bytes: number, copy: string | null = null): LoadedReading => ({
  instrument: name,
  copy,
  bytes,
  at: { line: 2, column: 1 },
});

const compare = (...rows: readonly LoadedReading[]) =>
  compareReadings(rows, subjects, [alone, shared], 'loaded.csv');

describe('what is estimated', () => {
  test.each([
    // By hand: copies x 100 + samples once.
    [row('horns', 0), 2 * 100 + 4000],
    [row('horns', 0, 'Hn 2'), 100 + 4000],
    [row('tuba', 0), 100 + 30_000],
    // Zones x 10 + samples in each copy.
    [row('strings', 0), 20 + 4000 + 10 + 1000],
    [row('strings', 0, 'Va'), 10 + 1000],
  ])('%j', (one, bytes) => {
    const { rows } = compare(one).comparison;
    expect(rows[0]!.estimate).toEqual({ bytes, low: bytes, high: bytes, basis: 'computed' });
    expect(rows[0]!.error).toBe(-bytes);
  });
});

test('each player is fitted to its own, in the order of the template', () => {
  // p: fixed 50, factor 1.1 on 4200 (two copies) and 30 100. q: factor 2 alone.
  const { comparison, findings } = compare(
    row('horns', 2 * 50 + 1.1 * 4200),
    row('tuba', 50 + 1.1 * 30_100),
    row('strings', 2020, 'Va'),
  );
  expect(comparison.players).toEqual([
    {
      id: 'q',
      readings: 1,
      measured: 0,
      fixed: 0,
      factor: 2,
      worstBefore: 1010,
      worstAfter: 0,
      keys: { 'per-copy': 0, 'per-zone': 20, factor: 2 },
    },
    {
      id: 'p',
      readings: 2,
      measured: 0,
      fixed: 50,
      factor: 1.1,
      worstBefore: 3060,
      worstAfter: 0,
      keys: { 'per-copy': 160, 'per-zone': 0, factor: 1.1 },
    },
  ]);
  expect(comparison.rows.map(({ shown, error, refitted }) => [shown, error, refitted])).toEqual([
    [4720, 520, 4720],
    [33_160, 3060, 33_160],
    [2020, 1010, 2020],
  ]);
  expect(findings).toEqual([]);
});

test('without a template there are no keys', () => {
  const { comparison } = compareReadings([row('horns', 4300)], subjects, null, 'loaded.csv');
  expect(comparison.players.map(({ id, keys }) => [id, keys])).toEqual([['p', null]]);
});

test('far off is an error of more than half of the larger', () => {
  const codes = (bytes: number) => compare(row('horns', bytes)).findings.map(({ code }) => code);
  expect(codes(2100)).toEqual([]);
  expect(codes(2099)).toEqual(['loaded-far-off']);
  expect(codes(8400)).toEqual([]);
  expect(codes(8401)).toEqual(['loaded-far-off']);
});

test.each(['Vc', 'Db'])('a copy that nothing needs (%s) is told and not fitted', (copy) => {
  const { comparison, findings } = compare(row('strings', 500, copy));
  expect(findings).toMatchObject([
    {
      code: 'loaded-unneeded',
      severity: 'warning',
      file: 'loaded.csv',
      at: { line: 2, column: 1 },
      args: { instrument: 'strings', copy },
    },
  ]);
  expect(comparison).toMatchObject({ rows: [], players: [] });
});

test('readings in the template count in the fit of the player', () => {
  const harp = instrument(100);
  const { calibration } = calibrate(
    harp,
    shared,
    [reading('empty', 300), reading('full', 200 + 2 * 400_100)],
    null,
  );
  const measured: ComparedSubject = {
    id: 'harp',
    loadable: { instrument: harp, player: shared, calibration },
    need: { kind: 'shared', zones: mask('#.'), copies: new Set(['Harp']) },
  };
  // A copy with nothing loaded takes its 100 by the player: 100 + 2 x 100 = 300, and so on the line.
  const { comparison } = compareReadings(
    [row('tuba', 100 + 2 * 30_100)],
    [...subjects, measured],
    [shared, alone],
    'loaded.csv',
  );
  const [fit] = comparison.players;
  expect(fit).toMatchObject({ readings: 1, measured: 2 });
  expect(fit!.factor).toBeCloseTo(2, 3);
  expect(fit!.fixed).toBeGreaterThan(90);
  expect(fit!.fixed).toBeLessThan(140);
});
