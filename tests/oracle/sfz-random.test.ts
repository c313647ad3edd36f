/** Holds the random instruments and reels to what they are for: most regions play, all doubts turn up. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { SfzResult } from './sfz-data.ts';
import { playSfz } from './sfz-player.ts';
import { randomReel, randomSfz } from './sfz-random.ts';

const runs = 300;

function play(fades: boolean): SfzResult[] {
  const pairs = fc.tuple(randomSfz({ fades }), randomReel());
  return fc.sample(pairs, { numRuns: runs, seed: 1 }).map(([data, reel]) => playSfz(data, reel));
}

describe.each([true, false])('random instruments, fades %s', (fades) => {
  const results = play(fades);
  const regions = results.flatMap((result) => result.regions);
  const sets = regions.flatMap(({ reached }) => reached);

  test('more than half of the regions play, but not all', () => {
    const share = regions.filter(({ reached }) => reached.length > 0).length / regions.length;
    expect(share).toBeGreaterThan(0.5);
    expect(share).toBeLessThan(0.9);
  });

  test('many play only under a doubt', () => {
    const doubtful = regions.filter(({ reached }) => (reached[0]?.length ?? 0) > 0);
    expect(doubtful.length / regions.length).toBeGreaterThan(0.08);
  });

  test('every doubt decides something', () => {
    const names = [...new Set(sets.flat())].sort();
    const always = ['engine', 'no-switch', 'order', 'pedal-held', 'start-state'];
    expect(names).toEqual([...always, ...(fades ? ['smoothing', 'tail'] : [])].sort());
  });

  test('every kind of start happens, and silent ones', () => {
    const kinds = results.flatMap(({ starts }) => starts.map(({ why }) => why));
    expect([...new Set(kinds)].sort()).toEqual(
      ['controller', 'cut', 'note', 'release', 'release-key', 'restrike'].sort(),
    );
    expect(regions.some(({ mutes }) => mutes.length > 0)).toBe(true);
  });

  test('the plain set stands alone', () => {
    for (const { reached } of regions) {
      if (reached.some((set) => set.length === 0)) expect(reached).toEqual([[]]);
    }
  });
});
