import { expect, test } from 'vitest';
import type { Check, Miss } from '../../src/keep/check/check.ts';
import type { PlanMachine } from '../../src/keep/plan.ts';
import { overviewMisses } from '../../src/overview/misses.ts';

const place = (tick: number) => ({
  ...{
    cue: '2m2',
    copy: null,
    track: 3,
    trackName: 'Perc 1',
    tick,
    bar: 12,
    beat: 1,
    seconds: 9,
    timecode: null,
  },
  ...{ key: 51, velocity: 90 },
});

const miss = (unit: string, more: Partial<Miss> = {}): Miss =>
  ({
    ...{ instrument: 'percussion', machine: 'b', copy: null, unit, zone: unit, cues: ['2m2'] },
    ...{ articulations: [`hit ${unit}`], notes: 18, doubtfulNotes: 0, doubts: [[]] },
    ...{ ways: [] },
    ...{ keys: [[51, 51]], velocities: [90, 90], places: [place(480)], bytes: 10, fits: true },
    ...more,
  }) as unknown as Miss;

const machine = (high: number): PlanMachine => ({
  ...{ id: 'b', budget: 100, bytes: { full: 200, kept: high, low: high, high }, fits: true },
});

const told = (misses: readonly Miss[], high = 0) =>
  overviewMisses(
    {
      misses,
      proof: { cues: [{ id: '2m2' }] } as unknown as Check['proof'],
      total: { misses: misses.length, notes: 99, doubtfulNotes: 0, bytes: 0 },
    },
    [machine(high)],
  ).map(({ articulations, zones, notes, bytes, fits }) => [
    ...[articulations, zones, notes, bytes, fits],
  ]);

test('units that the same notes ask for are one line, their zones and bytes added', () => {
  expect(told([miss('close'), miss('tree'), miss('wide')])).toEqual([
    [['hit close', 'hit tree', 'hit wide'], 3, 18, 30, true],
  ]);
});

test('what other notes, keys or places ask for has a line of its own, as it is heard', () => {
  const later = miss('tree', { places: [place(960)] });
  expect(told([later, miss('close')])).toEqual([
    [['hit close'], 1, 18, 10, true],
    [['hit tree'], 1, 18, 10, true],
  ]);
  expect(told([miss('close'), miss('tree', { notes: 17 })])).toHaveLength(2);
  expect(told([miss('close'), miss('tree', { instrument: 'bells' })])).toHaveLength(2);
  expect(told([miss('close'), miss('tree', { copy: '2' })])).toHaveLength(2);
});

test('each may fit alone and all of them not', () => {
  expect(told([miss('close'), miss('tree')], 85)).toEqual([
    [['hit close', 'hit tree'], 2, 18, 20, false],
  ]);
  expect(told([miss('close'), miss('tree')], 80)[0]!.at(-1)).toBe(true);
  expect(told([miss('close', { fits: null }), miss('tree', { fits: null })])[0]!.at(-1)).toBe(null);
});
