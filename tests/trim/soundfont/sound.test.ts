import { describe, expect, test } from 'vitest';
import type { Generator } from '../../oracle/soundfont-bytes.ts';
import { irom, type HeaderPlan, type TrimPlan } from './bank.ts';
import { wordsOf } from './naive-reader.ts';
import { keeping, trimPlan } from './trimming.ts';

/** Section numbers are those of SoundFont 2.04. */
const rom = 0x8000;

/** One instrument with a zone for each sample, in their order, with the generators given. */
const plan = (
  samples: readonly (HeaderPlan & { readonly gens?: readonly Generator[] })[],
  more: Partial<TrimPlan> = {},
): TrimPlan => ({
  presets: [{ name: 'p', bank: 0, program: 0, zones: [{ generators: [[41, 0]] }] }],
  instruments: [
    {
      name: 'i',
      zones: samples.map(({ gens = [] }, i) => ({ generators: [...gens, [53, i]] })),
    },
  ],
  samples,
  points: 1000,
  ...more,
});

/** Points in what is written, by their number in the full bank; and start, end and loops of samples. */
const trimmedSound = async (bank: TrimPlan, ...loaded: number[]) => {
  const { before, after, trimmed } = await trimPlan(bank, keeping(loaded, [0]));
  const all = wordsOf(before, 0, Infinity);
  const points = wordsOf(after, 0, Infinity).map((word) => all.indexOf(word));
  const stretches: number[][] = [];
  for (const point of points) {
    const last = stretches.at(-1);
    if (last?.[1] === point) last[1] = point + 1;
    else stretches.push([point, point + 1]);
  }
  const addresses = after.samples.map(({ start, end, loop }) => [start, end, ...loop]);
  const copies = trimmed.files[0]!.pieces.filter(({ kind }) => kind === 'copy').length;
  return { stretches, addresses, after, before, copies };
};

describe('the points of a sample', () => {
  test('are its own and the 46 behind it (6.1)', async () => {
    const bank = plan([
      { start: 0, end: 50 },
      { start: 300, end: 400 },
      { start: 600, end: 700 },
    ]);
    expect(await trimmedSound(bank, 0, 2)).toMatchObject({
      stretches: [
        [0, 96],
        [600, 746],
      ],
      addresses: [
        [0, 50, 8, 42],
        [96, 196, 104, 188],
      ],
    });
  });

  test('end with the sound', async () => {
    const bank = plan([
      { start: 0, end: 50 },
      { start: 900, end: 980 },
    ]);
    expect((await trimmedSound(bank, 1)).stretches).toEqual([[900, 1000]]);
  });

  test.each<[string, readonly [number, number], number[], number[]]>([
    ['inside', [310, 390], [300, 446], [10, 90]],
    ['that ends a little behind the sample', [310, 446], [300, 454], [10, 146]],
    ['that begins a little before it', [290, 390], [282, 446], [8, 108]],
    ['far before it: two points keep it there', [0, 0], [298, 446], [0, 0]],
    ['far before it, with a length: never without one', [3, 90], [298, 446], [0, 1]],
    ['far before it, the wrong way round', [90, 3], [298, 446], [1, 0]],
    ['that begins far before it', [9, 390], [298, 446], [0, 92]],
    ['far behind it', [700, 800], [300, 446], [400, 500]],
    ['farther than all', [300, 0xffff_ffff], [300, 446], [0, 0xffff_ffff - 300]],
  ])('a loop %s', async (_where, loop, stretch, moved) => {
    const bank = plan([
      { start: 0, end: 50 },
      { start: 300, end: 400, loop },
    ]);
    const { stretches, addresses } = await trimmedSound(bank, 1);
    expect(stretches).toEqual([stretch]);
    expect(addresses[0]!.slice(2)).toEqual(moved);
  });

  test('that overlap, or touch, or are shared stay so', async () => {
    const bank = plan([
      { start: 100, end: 200 },
      { start: 150, end: 250 },
      { start: 150, end: 250 },
      { start: 296, end: 350 },
      { start: 397, end: 450 },
    ]);
    expect(await trimmedSound(bank, 0, 1, 2, 3, 4)).toMatchObject({
      stretches: [
        [100, 396],
        [397, 496],
      ],
      addresses: [
        [0, 100],
        [50, 150],
        [50, 150],
        [196, 250],
        [296, 349],
      ].map(([start, end]) => [start, end, start! + 8, end! - 8]),
    });
    expect((await trimmedSound(bank, 2)).stretches).toEqual([[150, 296]]);
  });

  test('an end behind the sound stays as far behind it', async () => {
    const bank = plan([
      { start: 0, end: 50 },
      { start: 900, end: 1200 },
      { start: 1010, end: 1100 },
    ]);
    const { stretches, addresses } = await trimmedSound(bank, 1, 2);
    expect(stretches).toEqual([[900, 1000]]);
    expect(addresses.map((all) => all.slice(0, 2))).toEqual([
      [0, 300],
      [110, 200],
    ]);
  });

  test('an empty sample stays empty, and no other becomes so', async () => {
    const bank = plan([
      { start: 500, end: 500, loop: [500, 500] },
      { start: 800, end: 700 },
      { start: 300, end: 350 },
    ]);
    const { addresses } = await trimmedSound(bank, 0, 1, 2);
    expect(addresses.map((all) => all.slice(0, 2))).toEqual([
      [96, 96],
      [142, 42],
      [0, 50],
    ]);
  });
});

describe('address offsets of a zone (8.1.2)', () => {
  const sample = { start: 300, end: 400, loop: [310, 390] } as const;
  const minus = (amount: number): number => 65_536 - amount;
  test.each<[string, readonly Generator[], number[]]>([
    [
      'inside: nothing',
      [
        [0, 20],
        [1, minus(20)],
        [2, 9],
        [3, minus(9)],
      ],
      [300, 446],
    ],
    ['start, fine', [[0, minus(100)]], [200, 446]],
    ['end, fine', [[1, 100]], [300, 546]],
    ['loop start', [[2, minus(30)]], [272, 446]],
    ['loop end', [[3, 90]], [300, 488]],
    [
      'start, coarse and fine',
      [
        [4, minus(1)],
        [0, 32_668],
      ],
      [200, 446],
    ],
    [
      'end, coarse and fine',
      [
        [12, 1],
        [1, minus(32_768)],
      ],
      [300, 446],
    ],
    ['loop start, coarse: as far as there is sound', [[45, minus(1)]], [0, 446]],
    ['loop end, coarse', [[50, 1]], [300, 1000]],
    [
      'the last of two counts (7.9)',
      [
        [0, minus(100)],
        [0, minus(50)],
      ],
      [250, 446],
    ],
  ])('%s', async (_what, gens, stretch) => {
    const bank = plan([
      { start: 0, end: 20 },
      { ...sample, gens },
    ]);
    expect((await trimmedSound(bank, 1)).stretches).toEqual([stretch]);
  });

  test('of the global zone, but for those that the zone has itself (9.4)', async () => {
    const bank = plan([sample]);
    const global: Generator[] = [
      [0, minus(100)],
      [1, 100],
    ];
    const zones = [
      { generators: global },
      {
        generators: [
          [1, 0],
          [53, 0],
        ] as Generator[],
      },
    ];
    const withGlobal = { ...bank, instruments: [{ name: 'i', zones }] };
    const { stretches } = await trimmedSound(withGlobal, 1);
    // FluidSynth and others that pass nothing on need no more; the union is what stays.
    expect(stretches).toEqual([[200, 446]]);
  });

  test('behind the sample they are ignored', async () => {
    const bank = plan([sample]);
    const zones = [
      {
        generators: [
          [53, 0],
          [0, minus(100)],
        ] as Generator[],
      },
    ];
    const { stretches } = await trimmedSound({ ...bank, instruments: [{ name: 'i', zones }] }, 0);
    expect(stretches).toEqual([[300, 446]]);
  });

  test('of zones that go count no more', async () => {
    const bank = plan([sample]);
    const zones = [
      {
        generators: [
          [0, minus(100)],
          [53, 0],
        ] as Generator[],
      },
      { generators: [[53, 0]] as Generator[] },
    ];
    const two = { ...bank, instruments: [{ name: 'i', zones }] };
    expect((await trimmedSound(two, 1)).stretches).toEqual([[300, 446]]);
    expect((await trimmedSound(two, 0, 1)).stretches).toEqual([[200, 446]]);
  });
});

describe('24-bit sound (6.2)', () => {
  const samples = [
    { start: 0, end: 51 },
    { start: 300, end: 400 },
    { start: 600, end: 701 },
  ];
  test('low bytes go with their points, rounded up to an even number', async () => {
    const { after, stretches } = await trimmedSound(plan(samples, { sm24: true }), 0, 1);
    expect(stretches).toEqual([
      [0, 97],
      [300, 446],
    ]);
    expect(after.smpl).toHaveLength(243 * 2);
    expect(after.sm24).toHaveLength(244);
    expect(after.sm24!.at(-1)).toBe(0);
  });

  test('an odd number of points before, an even one after', async () => {
    const { after, before } = await trimmedSound(plan(samples, { sm24: true, points: 747 }), 1);
    expect(before.sm24).toHaveLength(748);
    expect(after.sm24).toHaveLength(146);
  });

  test('low bytes that do not count go', async () => {
    const { after } = await trimmedSound(plan(samples, { sm24: true, version: [2, 1] }), 1);
    expect(after.sm24).toBeNull();
    expect(after.order[0]).toBe('smpl');
    expect(after.order[1]).toBe('phdr');
  });
});

describe('ROM samples (7.10)', () => {
  const samples = [
    { start: 0, end: 50, type: 1 },
    { start: 90_000, end: 99_000, type: rom | 1 },
    { start: 300, end: 400, type: 1 },
  ];
  test('keep their addresses and take no points', async () => {
    const { addresses, stretches } = await trimmedSound(plan(samples, { info: [irom] }), 1, 2);
    expect(stretches).toEqual([[300, 446]]);
    expect(addresses[0]).toEqual([90_000, 99_000, 90_008, 98_992]);
  });

  test('alone leave no sound at all', async () => {
    const only = plan([samples[1]!], { info: [irom] });
    const { after } = await trimmedSound(only, 0);
    expect(after.order[0]).toBe('phdr');
    expect(after.samples).toHaveLength(1);
  });
});
