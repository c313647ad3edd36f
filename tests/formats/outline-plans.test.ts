import { describe, expect, test } from 'vitest';
import { outlineIsTable } from './outline-plans.ts';
import { runs } from '../runs.ts';

/**
 * The same instrument as an outline and as a zone table. Left out is what a table has no word for:
 * recorded keys with neighbours, borders that are not printed, transitions, conditions, and switches
 * of which nothing is known; and what an outline has none for: releases alone, shared samples.
 */
describe('an outline gives the plan of a zone table', () => {
  test('keys, velocities and keyswitches', async () => {
    const options = { articulations: true, fades: false, releases: false };
    const seen = await outlineIsTable({ seed: 71, numRuns: runs(200, 100) }, options);
    expect([...seen].sort()).toEqual(['engine', 'no-switch', 'order', 'slack', 'start-state']);
  });

  test('fades and releases too', async () => {
    const options = { articulations: true, fades: true, releases: true };
    const seen = await outlineIsTable({ seed: 72, numRuns: runs(300, 150) }, options);
    expect(seen).toContain('tail');
    expect(seen).toContain('smoothing');
    expect(seen).toContain('pedal-held');
  });

  test('without switches', async () => {
    const options = { articulations: false, fades: true, releases: true };
    const seen = await outlineIsTable({ seed: 73, numRuns: runs(200, 100) }, options);
    expect(seen).not.toContain('no-switch');
  });

  test('a key too low in the outline would be seen', async () => {
    const options = { articulations: false, fades: false, releases: false };
    await expect(
      outlineIsTable({ seed: 74, numRuns: 60, endOnFailure: true }, options, (model) => ({
        ...model,
        zones: model.zones.map((zone) => ({
          ...zone,
          keys: [Math.max(zone.keys[0] - 1, 0), zone.keys[1]],
        })),
      })),
    ).rejects.toThrow();
  });
});
