import { describe, expect, test } from 'vitest';
import { zoneDoubts } from '../../src/keep/reach.ts';
import type { Settlements } from '../../src/terms/settlement.ts';
import { namesOf } from '../../src/terms/doubt.ts';
import { cc, instrumentOf, mebibyte, off, on, start, usageOf } from '../playback/hand-made.ts';
import { planWhole } from '../playback/whole-cue.ts';

/**
 * The worked example of the design, section 6, to the letter: tick 0 switch 24; tick 480, in file
 * order, note 60 then switch 25; tick 960 cc1 = 20, cc1 = 90, note 62; cc1 was never set before and
 * the instrument starts with 90. Zone A (40 MiB): key 60, switch 25, cc1 0-63. Zone B (100 MiB): keys
 * 60-62, cc1 0-63.
 */
const lowCc1 = { signal: 1, tests: [{ lo: 0, hi: 63, doubt: 0 }] };
const example = instrumentOf(
  {
    signals: [
      { kind: 'switch', keys: [[24, 25]], initial: null },
      { kind: 'controller', number: 1, initial: 90 },
    ],
    gates: [[{ signal: 0, tests: [{ lo: 25, hi: 25, doubt: 0 }] }, lowCc1], [lowCc1]],
    starts: [start(0, { keys: [60, 60], gate: 0 }), start(1, { keys: [60, 62], gate: 1 })],
  },
  [40, 100],
);

const usage = usageOf(example, [
  on(0, 24),
  off(240, 24),
  on(480, 60),
  on(480, 25),
  cc(960, 1, 20),
  cc(960, 1, 90),
  on(960, 62),
]);

const planWith = (settle: Settlements) => planWhole(example, [usage], settle);

describe('the worked example', () => {
  test('M(A) and M(B)', () => {
    const named = zoneDoubts(example, [usage]).map((sets) => sets.map(namesOf));
    expect(named).toEqual([[['start-state', 'order']], [['start-state'], ['order']]]);
  });

  test('kept and priced', () => {
    const plan = planWith({});
    expect(plan.total.bytes.kept).toBe(140 * mebibyte);
    expect(plan.doubts).toEqual([
      { name: 'start-state', settled: null, zones: 1, bytes: 40 * mebibyte },
      { name: 'order', settled: null, zones: 1, bytes: 40 * mebibyte },
    ]);
    expect(plan.together).toEqual([{ names: ['start-state', 'order'], bytes: 140 * mebibyte }]);
    expect(plan.doubtsAll).toBe(140 * mebibyte);
    expect(plan.instruments[0]!.kept.map(({ reasons }) => reasons)).toEqual([
      ['start-state', 'order'],
      ['start-state', 'order'],
    ]);
  });

  test('settling order as plain drops A and keeps B for start-state, at 100', () => {
    const plan = planWith({ order: 'plain' });
    expect(plan.instruments[0]!.kept.map(({ zone, reasons }) => [zone, reasons])).toEqual([
      [1, ['start-state']],
    ]);
    expect(plan.total.bytes.kept).toBe(100 * mebibyte);
    const price = plan.doubts.find(({ name }) => name === 'start-state');
    expect(price).toEqual({ name: 'start-state', settled: null, zones: 1, bytes: 100 * mebibyte });
    expect(plan.doubtsAll).toBe(100 * mebibyte);
  });

  test('accepting keeps the zones and takes the doubt off the open list', () => {
    const plan = planWith({ order: 'accept' });
    expect(plan.total.bytes.kept).toBe(140 * mebibyte);
    expect(plan.doubts.find(({ name }) => name === 'order')!.settled).toBe('accept');
    expect(plan.together).toEqual([]);
  });
});
