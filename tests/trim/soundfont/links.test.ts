import { expect, test } from 'vitest';
import { irom, type HeaderPlan, type TrimPlan } from './bank.ts';
import { keeping, trimPlan } from './trimming.ts';

/** SoundFont 2.04, section 7.10: 1 mono, 2 right, 4 left, 8 linked, with 0x8000 in ROM. */
const linksOf = async (
  pairs: readonly (readonly [type: number, link: number])[],
  loaded: readonly number[],
) => {
  const samples = pairs.map(([type, link], i): HeaderPlan => ({
    start: i * 100,
    end: i * 100 + 54,
    type,
    link,
  }));
  const plan: TrimPlan = {
    info: [irom],
    presets: [{ name: 'p', bank: 0, program: 0, zones: [{ generators: [[41, 0]] }] }],
    instruments: [{ name: 'i', zones: samples.map((_, i) => ({ generators: [[53, i]] })) }],
    samples,
    points: samples.length * 100,
  };
  const { after } = await trimPlan(plan, keeping(loaded, [0]));
  return after.samples.map(({ type, link }) => [type, link]);
};

test.each<[string, [number, number][], number[], [number, number][]]>([
  [
    'a pair that stays',
    [
      [1, 0],
      [2, 2],
      [4, 1],
    ],
    [1, 2],
    [
      [2, 1],
      [4, 0],
    ],
  ],
  [
    'a pair whose left half goes',
    [
      [1, 0],
      [2, 2],
      [4, 1],
    ],
    [0, 1],
    [
      [1, 0],
      [1, 0],
    ],
  ],
  [
    'a pair whose right half goes',
    [
      [2, 1],
      [4, 0],
    ],
    [1],
    [[1, 0]],
  ],
  [
    'broken: all name header 0, which stays',
    [
      [2, 0],
      [4, 0],
      [2, 0],
    ],
    [0, 2],
    [
      [2, 0],
      [2, 0],
    ],
  ],
  [
    'broken: all name header 0, which goes',
    [
      [2, 0],
      [4, 0],
      [2, 0],
    ],
    [1, 2],
    // Half of FluidR3_GM's headers are such: TiMidity++ goes by the side (measured).
    [
      [4, 0],
      [2, 0],
    ],
  ],
  [
    'broken: one names a mono sample',
    [
      [1, 0],
      [4, 2],
      [1, 0],
    ],
    [1, 2],
    [
      [4, 1],
      [1, 0],
    ],
  ],
  [
    'broken: no such header',
    [
      [1, 0],
      [4, 3],
      [2, 0xffff],
    ],
    [1, 2],
    [
      [4, 3],
      [2, 0xffff],
    ],
  ],
  [
    'itself',
    [
      [1, 0],
      [4, 1],
    ],
    [1],
    [[4, 0]],
  ],
  [
    'a ring that stays',
    [
      [1, 0],
      [8, 2],
      [8, 3],
      [8, 1],
    ],
    [1, 2, 3],
    [
      [8, 1],
      [8, 2],
      [8, 0],
    ],
  ],
  [
    'a ring with a gap',
    [
      [8, 1],
      [8, 2],
      [8, 0],
    ],
    [0, 1],
    [
      [8, 1],
      [8, 0],
    ],
  ],
  [
    'mono, with a link that stays',
    [
      [1, 0],
      [1, 2],
      [1, 0],
    ],
    [1, 2],
    [
      [1, 1],
      [1, 0],
    ],
  ],
  [
    'mono, with a link that goes',
    [
      [1, 0],
      [1, 2],
      [1, 0],
    ],
    [0, 1],
    [
      [1, 0],
      [1, 0],
    ],
  ],
  [
    'ROM pairs keep their flag',
    [
      [1, 0],
      [0x8002, 2],
      [0x8004, 1],
    ],
    [0, 2],
    [
      [1, 0],
      [0x8001, 0],
    ],
  ],
  [
    'unknown types stay unknown',
    [
      [1, 0],
      [6, 0],
      [0x42, 0],
    ],
    [1, 2],
    [
      [6, 0],
      [0x42, 0],
    ],
  ],
])('%s', async (_what, pairs, loaded, expected) => {
  expect(await linksOf(pairs, loaded)).toEqual(expected);
});
