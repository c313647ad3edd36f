import fc from 'fast-check';
import type { Limits, Model, ModelZone } from '../../../formats/model.ts';
import { keySpan, switchKeys } from '../../../formats/random-model.ts';

/** Everything from `lo` to `hi`, divided at random. */
const divided = (lo: number, hi: number): fc.Arbitrary<readonly Limits[]> =>
  fc.uniqueArray(fc.integer({ min: lo + 1, max: hi }), { maxLength: 3 }).map((some) => {
    const from = [lo, ...some.sort((a, b) => a - b)];
    return from.map((first, i): Limits => [first, (from[i + 1] ?? hi + 1) - 1]);
  });

/** Neighbours overlap a little, as crossfades do. */
const faded = (layers: readonly Limits[], overlap: number): readonly Limits[] =>
  layers.map(([lo, hi]) => [Math.max(0, lo - overlap), Math.min(127, hi + overlap)]);

/**
 * Instruments as a library has them: each articulation has layers by a controller and by velocity that
 * leave no gap, over all keys, and now and then releases for them. So there is something to go to.
 */
export const layeredModel: fc.Arbitrary<Model> = fc
  .record({
    articulations: fc.constantFrom(0, 2, 3),
    velocities: divided(1, 127),
    controller: fc.constantFrom(1, 11, 21),
    dynamics: divided(0, 127),
    overlap: fc.constantFrom(0, 0, 5),
    releases: fc.constantFrom('none' as const, 'release' as const, 'note-off' as const),
  })
  .map(({ articulations, velocities, controller, dynamics, overlap, releases }): Model => {
    const zones: ModelZone[] = [];
    const choices = articulations === 0 ? [null] : switchKeys.slice(0, articulations).keys();
    for (const articulation of choices) {
      for (const velocity of velocities) {
        for (const limits of faded(dynamics, overlap)) {
          const fades = limits[0] === 0 && limits[1] === 127 ? [] : [{ controller, limits }];
          const zone = { keys: keySpan, velocities: velocity, articulation, fades, sample: 0 };
          zones.push({ ...zone, starts: 'note-on' });
          if (releases !== 'none') zones.push({ ...zone, starts: releases });
        }
      }
    }
    return {
      samples: [{ frames: 1000, rate: 48_000 }],
      articulations: switchKeys
        .slice(0, articulations)
        .map((switchKey, i) => ({ name: `manner ${String(i)}`, switchKey })),
      zones,
    };
  });
