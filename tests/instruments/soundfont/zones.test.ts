import { describe, expect, test } from 'vitest';
import {
  illegalInPresets,
  unusedGenerators,
} from '../../../reference/soundfont-2.04-generators.ts';
import {
  instrument,
  keys,
  pan,
  sample,
  velocities,
  type BankSpec,
  type Gen,
} from './bank-bytes.ts';
import { readBank, startLines } from './reading.ts';

/** Section numbers are those of SoundFont 2.04. Zones of one instrument under one open preset. */
const instrumentStarts = async (...zones: readonly (readonly Gen[])[]) =>
  startLines(await readBank({ instruments: [{ zones }], samples: [{}, {}] }));

/** Zones of one preset over one open instrument. */
const presetStarts = async (...zones: readonly (readonly Gen[])[]) =>
  startLines(await readBank({ presets: [{ zones }] }));

const all = 'keys 0-127 velocities 0-127';

describe('instrument zones', () => {
  test.each<[rule: string, zones: readonly (readonly Gen[])[], starts: readonly string[]]>([
    [
      '7.9 ranges',
      [[keys(10, 20), velocities(1, 64), sample(0)]],
      ['zone 0 keys 10-20 velocities 1-64 through 0'],
    ],
    [
      '7.5 the low end is in the low byte',
      [[[43, 0x1e0a], sample(0)]],
      ['zone 0 keys 10-30 velocities 0-127 through 0'],
    ],
    [
      '10.5 above 127 is 127',
      [[keys(60, 255), sample(0)]],
      ['zone 0 keys 60-127 velocities 0-127 through 0'],
    ],
    ['ends the wrong way round hold nothing', [[keys(20, 10), sample(0)]], []],
    [
      '8.1.2 a key range counts only as the first generator',
      [[pan(0), keys(10, 20), sample(0)]],
      [`zone 0 ${all} through 0`],
    ],
    [
      '8.1.2 a velocity range counts after a key range',
      [[keys(1, 2), velocities(3, 4), sample(0)]],
      ['zone 0 keys 1-2 velocities 3-4 through 0'],
    ],
    [
      '8.1.2 a velocity range counts as the first',
      [[velocities(3, 4), sample(0)]],
      ['zone 0 keys 0-127 velocities 3-4 through 0'],
    ],
    [
      '8.1.2 a key range after a velocity range is ignored',
      [[velocities(3, 4), keys(1, 2), sample(0)]],
      ['zone 0 keys 0-127 velocities 3-4 through 0'],
    ],
    [
      '8.1.2 a velocity range after anything else is ignored',
      [[keys(1, 2), pan(0), velocities(3, 4), sample(0)]],
      ['zone 0 keys 1-2 velocities 0-127 through 0'],
    ],
    [
      '8.1.2 a velocity range second, but not after a key range, is ignored',
      [[pan(0), velocities(3, 4), sample(0)]],
      [`zone 0 ${all} through 0`],
    ],
    [
      '8.1.2 both ranges after anything else are ignored',
      [[pan(0), keys(1, 2), velocities(3, 4), sample(0)]],
      [`zone 0 ${all} through 0`],
    ],
    [
      '8.1.2 a second key range is not the first generator',
      [[keys(1, 2), keys(3, 4), sample(0)]],
      ['zone 0 keys 1-2 velocities 0-127 through 0'],
    ],
    [
      '8.1.2 a velocity range after two key ranges counts: no other generator precedes it',
      [[keys(1, 2), keys(3, 4), velocities(5, 6), sample(0)]],
      ['zone 0 keys 1-2 velocities 5-6 through 0'],
    ],
    [
      '8.1.2 a second velocity range follows a velocity range',
      [[keys(1, 2), velocities(3, 4), velocities(5, 6), sample(0)]],
      ['zone 0 keys 1-2 velocities 3-4 through 0'],
    ],
    [
      '10.3 an unknown generator before a range counts as one',
      [[[99, 0], keys(1, 2), sample(0)]],
      [`zone 0 ${all} through 0`],
    ],
    [
      '7.9 what follows the sample is ignored',
      [[sample(0), keys(1, 2)]],
      [`zone 0 ${all} through 0`],
    ],
    [
      '7.9 a second sample follows the first',
      [[sample(0), sample(9)]],
      [`zone 0 ${all} through 0`],
    ],
    [
      '10.7 an instrument is not for instrument zones',
      [[instrument(9), sample(0)]],
      [`zone 0 ${all} through 0`],
    ],
    [
      '8.1.2 overriding key and velocity select nothing',
      [[[46, 60], [47, 64], sample(0)]],
      [`zone 0 ${all} through 0`],
    ],
    ['7.7 a lone zone without a sample is ignored', [[keys(1, 2)]], []],
    [
      '7.7 a zone without a sample after the first is ignored',
      [[sample(0)], [keys(1, 2)], [sample(1)]],
      [`zone 0 ${all} through 0`, `zone 2 ${all} through 0`],
    ],
    [
      '7.7 a global zone without generators is ignored',
      [[], [keys(1, 2), sample(0)]],
      ['zone 1 keys 1-2 velocities 0-127 through 0'],
    ],
    [
      '7.7 the first zone is not global when it has a sample',
      [[keys(1, 2), sample(0)], [sample(1)]],
      ['zone 0 keys 1-2 velocities 0-127 through 0', `zone 1 ${all} through 0`],
    ],
    [
      '9.4 a global range is for zones without one; some engines do not pass it on',
      [[keys(10, 20)], [sample(0)], [keys(60, 70), sample(1)]],
      [
        'zone 1 keys 10-20 velocities 0-127 through 0',
        `zone 1 ${all} through 0 engine`,
        'zone 2 keys 60-70 velocities 0-127 through 0',
      ],
    ],
    [
      '9.4 key and velocity range are passed on one by one',
      [
        [keys(10, 20), velocities(1, 9)],
        [keys(60, 70), sample(0)],
      ],
      [
        'zone 1 keys 60-70 velocities 1-9 through 0',
        'zone 1 keys 60-70 velocities 0-127 through 0 engine',
      ],
    ],
    [
      '9.4 a global range that is everything changes nothing',
      [[keys(0, 127)], [sample(0)]],
      [`zone 1 ${all} through 0`],
    ],
    [
      '9.4 a global range that holds nothing',
      [[keys(20, 10)], [sample(0)]],
      [`zone 1 ${all} through 0 engine`],
    ],
  ])('%s', async (_rule, zones, starts) => {
    expect(await instrumentStarts(...zones)).toEqual(starts);
  });
});

describe('preset zones', () => {
  test.each<[rule: string, zones: readonly (readonly Gen[])[], starts: readonly string[]]>([
    [
      '7.5 ranges',
      [[keys(10, 20), velocities(1, 64), instrument(0)]],
      ['zone 0 keys 10-20 velocities 1-64 through 0'],
    ],
    [
      '8.1.2 a key range counts only as the first generator',
      [[pan(0), keys(1, 2), instrument(0)]],
      [`zone 0 ${all} through 0`],
    ],
    [
      '10.7 a sample is not for preset zones',
      [[sample(9)], [sample(9), instrument(0)]],
      [`zone 0 ${all} through 1`],
    ],
    [
      '7.5 what follows the instrument is ignored',
      [[instrument(0), keys(1, 2), instrument(9)]],
      [`zone 0 ${all} through 0`],
    ],
    [
      '7.3 a zone without an instrument after the first is ignored',
      [[instrument(0)], [keys(1, 2)], [instrument(0)]],
      [`zone 0 ${all} through 0`, `zone 0 ${all} through 2`],
    ],
    [
      '9.4 a global range',
      [[velocities(1, 9)], [instrument(0)]],
      ['zone 0 keys 0-127 velocities 1-9 through 1', `zone 0 ${all} through 1 engine`],
    ],
  ])('%s', async (_rule, zones, starts) => {
    expect(await presetStarts(...zones)).toEqual(starts);
  });
});

test.each(illegalInPresets)('8.5 generator %i is ignored in a preset zone', async (operator) => {
  expect(await presetStarts([keys(1, 2), [operator, 9], instrument(0)])).toEqual([
    'zone 0 keys 1-2 velocities 0-127 through 0',
  ]);
});

test.each(unusedGenerators)('8.1.2 unused generator %i is ignored', async (operator) => {
  expect(await instrumentStarts([keys(1, 2), [operator, 9], sample(0)])).toEqual([
    'zone 0 keys 1-2 velocities 0-127 through 0',
  ]);
});

describe('preset and instrument zones together (9.4)', () => {
  const starts = async (spec: BankSpec) => startLines(await readBank(spec));

  test('the preset range filters the instrument range', async () => {
    expect(
      await starts({
        presets: [{ zones: [[keys(50, 60), velocities(64, 127), instrument(0)]] }],
        instruments: [
          {
            zones: [
              [keys(40, 55), velocities(1, 100), sample(0)],
              [keys(61, 70), sample(0)],
              [velocities(0, 63), sample(0)],
            ],
          },
        ],
      }),
    ).toEqual(['zone 0 keys 50-55 velocities 64-100 through 0']);
  });

  test('global ranges at both levels: one wide start where they differ', async () => {
    expect(
      await starts({
        presets: [{ zones: [[keys(0, 60)], [instrument(0)]] }],
        instruments: [{ zones: [[velocities(0, 63)], [keys(50, 80), sample(0)]] }],
      }),
    ).toEqual([
      'zone 1 keys 50-60 velocities 0-63 through 1',
      'zone 1 keys 50-80 velocities 0-127 through 1 engine',
    ]);
  });

  test('nothing in common by the plain reading: the wide start alone', async () => {
    expect(
      await starts({
        presets: [{ zones: [[keys(0, 10)], [instrument(0)]] }],
        instruments: [{ zones: [[keys(50, 80), sample(0)]] }],
      }),
    ).toEqual(['zone 0 keys 50-80 velocities 0-127 through 1 engine']);
  });

  test('10.5 above 127 at both levels is 127', async () => {
    expect(
      await starts({
        presets: [{ zones: [[keys(60, 255), velocities(1, 200), instrument(0)]] }],
        instruments: [{ zones: [[keys(50, 128), velocities(2, 255), sample(0)]] }],
      }),
    ).toEqual(['zone 0 keys 60-127 velocities 2-127 through 0']);
  });

  test('one zone through several preset zones has a start for each', async () => {
    expect(
      await starts({
        presets: [
          {
            program: 1,
            zones: [
              [keys(0, 10), instrument(0)],
              [keys(5, 20), instrument(0)],
            ],
          },
          { program: 0, zones: [[instrument(0)]] },
        ],
      }),
    ).toEqual([
      `zone 0 ${all} through 2`,
      'zone 0 keys 0-10 velocities 0-127 through 0',
      'zone 0 keys 5-20 velocities 0-127 through 1',
    ]);
  });

  test('more than two million pairs are refused before any is made', async () => {
    const zones = Array.from({ length: 2001 }, () => [sample(0)]);
    const outer = Array.from({ length: 1000 }, () => [instrument(0)]);
    await expect(
      readBank({ presets: [{ zones: outer }], instruments: [{ zones }] }),
    ).rejects.toMatchObject({
      finding: { code: 'bank-too-large', args: { chunk: 'pbag', count: 2_001_000 } },
    });
  });
});
