/** One small instrument, and what stays with one zone of it at each grain. */
import { expect, test } from 'vitest';
import { closedUp, type Grain, type GrainZone } from './grain.ts';

const zone = (
  articulation: string | null,
  velocities: readonly [number, number],
  controllers: GrainZone['controllers'],
  microphone: string | null,
): GrainZone => ({ articulation, velocities, controllers, microphone });

const soft = [1, 63] as const;
const loud = [64, 127] as const;
const low = [[1, 0, 63]] as const;
const high = [[1, 64, 127]] as const;

/**
 * The velocities and controllers of 0, 1 and 4 are the same; 4 is of another articulation. 2 differs
 * from 0 by its velocities, 3 by its controllers. 5 and 6 name neither articulation nor microphone.
 */
const zones = [
  zone('sustain', soft, low, 'close'), // 0
  zone('sustain', soft, low, 'far'), // 1
  zone('sustain', loud, low, 'close'), // 2
  zone('sustain', soft, high, 'close'), // 3
  zone('pluck', soft, low, 'close'), // 4
  zone(null, soft, [], null), // 5
  zone(null, loud, [], null), // 6
];
const all = [0, 1, 2, 3, 4, 5, 6];

test.each<[Grain, number[], number[]]>([
  ['sample', [0], [0]],
  ['sample', [2, 5], [2, 5]],
  ['layer', [0], [0, 1]], // both microphones, as they answer to the same notes
  ['layer', [2], [2]],
  ['layer', [3], [3]],
  ['layer', [4], [4]], // a layer does not go beyond its articulation
  ['layer', [5], [5]],
  ['articulation', [0], [0, 1, 2, 3]],
  ['articulation', [4], [4]],
  ['articulation', [5], [5, 6]],
  ['articulation', [1, 4], [0, 1, 2, 3, 4]],
  ['microphone', [0], [0, 2, 3, 4]],
  ['microphone', [1], [1]],
  ['microphone', [6], [5, 6]],
  ['instrument', [4], all],
])('%s: %j brings %j', (grain, kept, expected) => {
  expect(closedUp(zones, kept, grain)).toEqual(expected);
});

test.each<Grain>(['sample', 'layer', 'articulation', 'microphone', 'instrument'])(
  '%s: nothing kept brings nothing, all kept stays all',
  (grain) => {
    expect(closedUp(zones, [], grain)).toEqual([]);
    expect(closedUp(zones, all, grain)).toEqual(all);
  },
);

test('controllers in another order are the same layer', () => {
  const one = zone(null, soft, [...low, [11, 0, 50]], null);
  const other = zone(null, soft, [[11, 0, 50], ...low], null);
  const third = zone(null, soft, [[11, 0, 51], ...low], null);
  expect(closedUp([one, other, third], [0], 'layer')).toEqual([0, 1]);
});
