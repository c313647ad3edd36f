import { expect, test } from 'vitest';
import type { Check, Miss, MissBars } from '../../src/keep/check/check.ts';
import type { PlanMachine } from '../../src/keep/plan.ts';
import type { StepsOf } from '../../src/overview/missed-steps.ts';
import { overviewMisses } from '../../src/overview/misses.ts';
import type { DoubtName } from '../../src/terms/doubt.ts';
import type { Range } from '../../src/terms/range.ts';

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
    ...{ ways: [], bars: [] },
    ...{ keys: [[51, 51]], velocities: [90, 90], places: [place(480)], bytes: 10, fits: true },
    ...more,
  }) as unknown as Miss;

const machine = (high: number): PlanMachine => ({
  ...{ id: 'b', budget: 100, bytes: { full: 200, kept: high, low: high, high }, fits: true },
});

const all = (
  misses: readonly Miss[],
  high = 0,
  stepsOf: StepsOf = () => [],
  total = { misses: misses.length, notes: 99, doubtfulNotes: 99, bytes: 0 },
) =>
  overviewMisses(
    {
      misses,
      proof: { cues: [{ id: '2m2' }] } as unknown as Check['proof'],
      total,
    },
    [machine(high)],
    stepsOf,
  );

const told = (misses: readonly Miss[], high = 0) =>
  all(misses, high).map(({ articulations, zones, notes, bytes, fits }) => [
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
  const [one] = all([miss('close', { places })]);
  expect(one!.places.map(({ tick }) => tick)).toEqual([480, 960, 1440]);
});

test('each may fit alone and all of them not', () => {
  expect(told([miss('close'), miss('tree')], 85)).toEqual([
    [['hit close', 'hit tree'], 2, 18, 20, false],
  ]);
  expect(told([miss('close'), miss('tree')], 80)[0]!.at(-1)).toBe(true);
  expect(told([miss('close', { fits: null }), miss('tree', { fits: null })])[0]!.at(-1)).toBe(null);
});

test('what notes ask for as they stand comes first, with its own keys and places', () => {
  const inDoubt = (zone: number, tick: number, unit: string, doubt: DoubtName) =>
    miss(unit, {
      ...{ zone, notes: 4, doubts: [[doubt]], keys: [[40, 40]], velocities: [10, 10] },
      places: [place(tick)],
    });
  const misses = all([
    inDoubt(1, 120, 'close', 'tail'),
    miss('close', { zone: 2, places: [place(960)] }),
    inDoubt(3, 240, 'tree', 'order'),
    miss('wide', { zone: 4, places: [place(1920)], notes: 2 }),
  ]);
  expect(
    misses.map(({ zones, doubtfulZones, doubts, notes, doubtfulNotes, keys, places: [first] }) => ({
      ...{ zones, doubtfulZones, doubts, notes, doubtfulNotes, key: keys, tick: first!.tick },
    })),
  ).toEqual([
    {
      ...{ zones: 1, doubtfulZones: 1, doubts: ['tail'], notes: 18, doubtfulNotes: 4 },
      ...{ key: [[51, 51]], tick: 960 },
    },
    {
      ...{ zones: 1, doubtfulZones: 0, doubts: [], notes: 2, doubtfulNotes: 0 },
      ...{ key: [[51, 51]], tick: 1920 },
    },
    {
      ...{ zones: 0, doubtfulZones: 1, doubts: ['order'], notes: 0, doubtfulNotes: 4 },
      ...{ key: [[40, 40]], tick: 240 },
    },
  ]);
});

/** One zone asked for plainly, one in doubt, by notes alike. */
const certain = miss('close', { zone: 1, notes: 5 });
const doubtful = miss('close', { zone: 2, notes: 5, doubts: [['order']] });

test.each([
  ['first', [certain, doubtful]],
  ['last', [doubtful, certain]],
])('what is asked for plainly keeps its notes where it comes %s', (_, misses) => {
  const [one] = all(misses);
  expect(one).toMatchObject({ zones: 1, notes: 5, notesAtMost: false, askedBy: 'notes' });
  // The same notes may ask for both.
  expect(one).toMatchObject({ doubtfulZones: 1, doubtfulNotes: 5, doubtfulNotesAtMost: true });
});

test('notes in doubt are a bound where nobody knows that they are apart', () => {
  const at = (key: number, doubtfulNotes: number): Miss =>
    miss('close', { zone: key, keys: [[key, key]], notes: 2, doubtfulNotes });
  const [both] = all([at(60, 3), at(62, 3)]);
  expect(both).toMatchObject({ notes: 4, notesAtMost: false });
  expect(both).toMatchObject({ doubtfulNotes: 6, doubtfulNotesAtMost: true });
  expect(all([at(60, 3)])[0]).toMatchObject({ doubtfulNotes: 3, doubtfulNotesAtMost: false });
  // Those of one may be the plain ones of the other.
  const [one] = all([at(60, 3), at(62, 0)]);
  expect(one).toMatchObject({ doubtfulNotes: 3, doubtfulNotesAtMost: true });
  const apart = miss('close', { zone: 9, keys: [[64, 64]], notes: 3, doubts: [['order']] });
  expect(all([at(60, 0), apart])[0]).toMatchObject({
    doubtfulNotes: 3,
    doubtfulNotesAtMost: false,
  });
});

test('what asks in doubt for this and plainly for something else is no cut', () => {
  const total = { misses: 2, notes: 5, doubtfulNotes: 0, bytes: 0 };
  const told = all([miss('tree', { notes: 5 }), doubtful], 0, () => [], total);
  expect(told.map(({ zones, doubtfulNotes, askedBy }) => [zones, doubtfulNotes, askedBy])).toEqual([
    [1, 0, 'notes'],
    [0, 5, 'notes'],
  ]);
});

test('what asks: notes, controllers alone, or only what cuts others short', () => {
  const askedBy = (...own: readonly Partial<Miss>[]): string =>
    all(own.map((one, zone) => miss('close', { zone, ...one })))[0]!.askedBy;
  const controller = { keys: [], velocities: null };
  expect(askedBy({}, { notes: 0 })).toBe('notes');
  expect(askedBy({ notes: 0 })).toBe('cuts');
  expect(askedBy({ notes: 0 }, { notes: 3, doubts: [['tail']] })).toBe('cuts');
  expect(askedBy(controller, { notes: 0 })).toBe('controllers');
  expect(askedBy(controller, {})).toBe('notes');
});

const bars = (track: number, ...own: readonly Range[]): MissBars => ({
  ...{ cue: '2m2', track, trackName: `Perc ${String(track)}`, bars: own },
});

test('bars to print are those of all its zones, track by track, the doubtful ones apart', () => {
  const [one] = all([
    miss('close', { zone: 1, bars: [bars(1, [4, 4], [9, 9])] }),
    miss('close', { zone: 2, bars: [bars(1, [5, 6]), bars(2, [8, 8])] }),
    miss('close', { zone: 3, doubts: [['tail']], bars: [bars(1, [6, 7])] }),
  ]);
  expect(one!.bars).toEqual([bars(1, [4, 6], [9, 9]), bars(2, [8, 8])]);
  expect(one!.doubtfulBars).toEqual([bars(1, [6, 7])]);
  // What is told once for several players' parts is printed for all of them.
  const [both] = all([
    miss('a', { bars: [bars(1, [4, 4])] }),
    miss('b', { bars: [bars(2, [4, 4])] }),
  ]);
  expect(both!.bars).toEqual([bars(1, [4, 4]), bars(2, [4, 4])]);
  const apart = Array.from({ length: 25 }, (_, i): Range => [2 * i + 1, 2 * i + 1]);
  expect(all([miss('a', { bars: [bars(1, ...apart)] })])[0]!.bars).toEqual([]);
  expect(all([miss('a', { bars: [bars(1, ...apart.slice(1))] })])[0]!.bars).toHaveLength(1);
});

test('steps that unload any of it, each once', () => {
  const steps = new Map([
    [1, [7]],
    [2, [7, 5]],
  ]);
  const [one] = all([miss('a', { zone: 1 }), miss('b', { zone: 2 })], 0, ({ zone }) =>
    steps.get(zone)!,
  );
  expect(one!.steps).toEqual([5, 7]);
});
