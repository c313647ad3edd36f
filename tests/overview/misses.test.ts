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

test('of notes in one beat the first stands for all, so that no place is told twice', () => {
  const at = (tick: number, beat: number) => ({ ...place(tick), beat });
  const places = [at(720, 1.5), at(480, 1), at(960, 2), at(1000, 2.04), at(1440, 3), at(1920, 4)];
  const [one] = overviewMisses(
    {
      misses: [miss('close', { places })],
      proof: { cues: [{ id: '2m2' }] } as unknown as Check['proof'],
      total: { misses: 1, notes: 99, doubtfulNotes: 0, bytes: 0 },
    },
    [machine(0)],
  );
  expect(one!.places.map(({ tick }) => tick)).toEqual([480, 960, 1440]);
});

test('each may fit alone and all of them not', () => {
  expect(told([miss('close'), miss('tree')], 85)).toEqual([
    [['hit close', 'hit tree'], 2, 18, 20, false],
  ]);
  expect(told([miss('close'), miss('tree')], 80)[0]!.at(-1)).toBe(true);
  expect(told([miss('close', { fits: null }), miss('tree', { fits: null })])[0]!.at(-1)).toBe(null);
});
