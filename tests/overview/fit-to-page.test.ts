import fc from 'fast-check';
import { expect, test } from 'vitest';
import { pageAssets } from '../../src/files/page-assets.ts';
import { fitToPage, mostPageBytes } from '../../src/overview/fit-to-page.ts';
import type { Overview, OverviewCell, OverviewMiss } from '../../src/overview/overview.ts';
import { pageSize } from '../../src/overview/page-size.ts';
import { reportPage } from '../../src/report/page/report-page.ts';
import { overviewOfSize } from '../report/page/overview-of-size.ts';

const assets = await pageAssets();
const pageBytes = (overview: Overview): number => Buffer.byteLength(reportPage(overview, assets));

/** Numbers that come again with the same seed. */
const drawing = (seed: number): ((below: number) => number) => {
  let state = seed >>> 0;
  return (below) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
};

interface Worst {
  readonly seed: number;
  readonly instruments: number;
  readonly cues: number;
  readonly articulations: number;
  readonly rows: number;
  /** Keys that a cell has at the most: 1 is the worst. */
  readonly keys: number;
  readonly steps: number;
  readonly misses: number;
}

/** Every key in a state of its own, each with its witnesses; each layer with a step of its own. */
const worst = (size: Worst): Overview => {
  const draw = drawing(size.seed);
  const base = overviewOfSize({ ...size, cells: 1 });
  const instruments = base.instruments.map((one) => {
    const witnesses = Array.from(
      { length: 384 },
      () => [draw(size.cues), 0, draw(300), 1 + draw(4), draw(128), draw(128)] as const,
    );
    const cells = (): OverviewCell[] => {
      const made: OverviewCell[] = [];
      for (let lo = 0; lo < 128;) {
        const hi = Math.min(127, lo + draw(size.keys));
        const state = draw(4);
        const reason = state === 3 ? -1 : draw(3);
        made.push([lo, hi, state, 9 + draw(9), state === 3 ? 0 : draw(9), reason, 3 * lo, 3]);
        lo = hi + 1;
      }
      return made;
    };
    const alternate = Array.from({ length: 64 }, (_, i) => [2 * i, 2 * i] as const);
    return {
      ...one,
      witnesses,
      articulations: one.articulations.map((articulation) => ({
        ...articulation,
        keysPlayed: alternate,
        playable: {
          state: 'part' as const,
          all: alternate,
          stretches: alternate.map((range) => ({
            keys: [range],
            dynamics: [
              {
                by: 'velocity' as const,
                safe: [[1, range[0] + 1] as const],
                all: [1, 127] as const,
              },
            ],
          })),
        },
        rows: articulation.rows.map((row) => ({ ...row, cells: cells() })),
      })),
    };
  });
  const [list, ...rest] = base.worklist;
  const miss = (i: number): OverviewMiss => ({
    ...{
      instrument: 'instrument-0',
      machine: 'a',
      copy: null,
      articulations: ['sustain'],
      zones: i,
    },
    ...{ notes: 3, doubtfulNotes: 0, keys: [[i % 128, i % 128]], velocities: [1, 127] },
    places: Array.from({ length: 3 }, () => ({
      ...{ cue: '1m1', track: 1, trackName: 'Horns 1', bar: 12, beat: 3, tick: 48_000 },
      ...{ seconds: 31.5, key: 60, velocity: 88 },
    })) as unknown as OverviewMiss['places'],
    ...{ bytes: 1_000_000, fits: true },
  });
  return {
    ...base,
    instruments,
    // Each cue needs each instrument.
    cues: base.cues.map((cue) => ({
      ...cue,
      needs: instruments.map((_, i) => [i, 1_000_000_000 + draw(1_000_000_000)] as const),
    })),
    tracks: ['Horns 1'],
    witnessesPerCell: 3,
    proof: { ...base.proof, misses: Array.from({ length: size.misses }, (_, i) => miss(i)) },
    worklist: [
      {
        ...list!,
        actions: Array.from({ length: size.steps }, (_, i) => ({
          ...list!.actions[0]!,
          number: i + 1,
          instrument: `instrument-${String(i % Math.max(1, size.instruments))}`,
          frees: 1_000_000 + draw(1_000_000_000),
        })),
      },
      ...rest,
    ],
  };
};

const largest = { seed: 5, instruments: 150, cues: 60, articulations: 5, rows: 3, keys: 1 };

test('the worst template of 150 instruments and 60 cues has a page of less than 2 MiB', () => {
  const whole = worst({ ...largest, steps: 4500, misses: 1000 });
  expect(pageSize(whole)).toBeGreaterThan(10 * mostPageBytes);
  const fitted = fitToPage(whole);
  expect(fitted.reduced.length).toBeGreaterThan(2);
  const bytes = pageBytes(fitted);
  expect(bytes).toBeLessThan(2 * 2 ** 20);
  // Not for nothing: more than half of the room is used.
  expect(bytes).toBeGreaterThan(2 ** 20);
}, 60_000);

const sizes: fc.Arbitrary<Worst> = fc.record({
  seed: fc.nat(),
  instruments: fc.integer({ min: 1, max: 8 }),
  cues: fc.integer({ min: 1, max: 12 }),
  articulations: fc.integer({ min: 1, max: 5 }),
  rows: fc.integer({ min: 1, max: 4 }),
  keys: fc.constantFrom(1, 3, 12, 60),
  steps: fc.integer({ min: 1, max: 40 }),
  misses: fc.integer({ min: 0, max: 90 }),
});

test('a page is never larger than what is reckoned for it, however it is reduced', () => {
  fc.assert(
    fc.property(sizes, fc.integer({ min: 60_000, max: 600_000 }), (size, most) => {
      const whole = worst(size);
      const fitted = fitToPage(whole, most);
      for (const one of [whole, fitted]) expect(pageBytes(one)).toBeLessThanOrEqual(pageSize(one));
      if (pageSize(whole) <= most) expect(fitted).toBe(whole);
      else expect(fitted.reduced.length).toBeGreaterThan(0);
    }),
    { seed: 3, numRuns: 25 },
  );
}, 120_000);

test('figures are never given up, however little room there is', () => {
  const whole = worst({ ...largest, instruments: 6, cues: 4, keys: 4, steps: 30, misses: 0 });
  const levels = new Set<string>();
  for (let most = 100_000; most < pageSize(whole); most += 60_000) {
    const fitted = fitToPage(whole, most);
    levels.add(fitted.reduced.join());
    expect(new Set(fitted.reduced).size).toBe(fitted.reduced.length);
    // No figure is given up.
    const figures = (of: Overview) =>
      of.instruments.map(({ bytes, zones, zonesKept, articulations }) => [
        ...[bytes, zones, zonesKept],
        articulations.map((one) => [one.zones, one.zonesKept, one.bytes]),
      ]);
    expect(figures(fitted)).toEqual(figures(whole));
    expect(fitted.total).toEqual(whole.total);
  }
  expect(levels.size).toBeGreaterThan(3);
});

test('steps that are left out are those that free least, and are counted', () => {
  const whole = worst({ ...largest, instruments: 20, keys: 12, steps: 4500, misses: 0 });
  const fitted = fitToPage(whole);
  const [before, after] = [whole.worklist[0]!, fitted.worklist[0]!];
  expect(after.actions.length + after.unlisted.steps).toBe(4500);
  const frees = (steps: readonly { readonly frees: number }[]): number =>
    steps.reduce((sum, one) => sum + one.frees, 0);
  expect(frees(after.actions) + after.unlisted.frees).toBe(frees(before.actions));
  const shown = new Set(after.actions.map(({ number }) => number));
  const left = before.actions.filter(({ number }) => !shown.has(number));
  expect(Math.max(...left.map((one) => one.frees))).toBeLessThanOrEqual(
    Math.min(...after.actions.map((one) => one.frees)),
  );
  expect(reportPage(fitted, assets)).toContain('more steps, which free less');
}, 60_000);
