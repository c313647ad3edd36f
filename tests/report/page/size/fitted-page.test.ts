import fc from 'fast-check';
import { expect, test } from 'vitest';
import { pageAssets } from '../../../../src/files/page-assets.ts';
import type { Overview } from '../../../../src/overview/overview.ts';
import type { OverviewCell } from '../../../../src/overview/overview-map.ts';
import type { OverviewMiss } from '../../../../src/overview/overview-proof.ts';
import { reportPage } from '../../../../src/report/page/report-page.ts';
import { fittedPage } from '../../../../src/report/page/size/fitted-page.ts';
import { overviewOfSize } from '../overview-of-size.ts';

const assets = await pageAssets();
const make = (overview: Overview): string => reportPage(overview, assets);
const pageBytes = (overview: Overview): number => Buffer.byteLength(make(overview));
const fitted = (overview: Overview, most?: number): string =>
  fittedPage(overview, { make, bytesOf: (html) => Buffer.byteLength(html) }, most);

/** The data that a page holds, as any reader of HTML finds them. */
const dataOf = (html: string): Overview => {
  const [, data = ''] =
    /<script type="application\/json" id=data>(.*?)<\/script>/s.exec(html) ?? [];
  return JSON.parse(data) as Overview;
};

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
            together: [],
            dependsOn: [],
            releasesGone: false,
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
    ...{ doubtfulZones: 0, doubts: [], doubtfulBars: [], steps: [1 + i] },
    bars: [
      {
        ...{ cue: '1m1', track: 1, trackName: 'Horns 1' },
        bars: Array.from({ length: 24 }, (_, at) => [4 * at + 1, 4 * at + 2] as const),
      },
    ],
    ...{ notesAtMost: false, bytesAtMost: false, ways: [] },
    ...{
      notes: 3,
      doubtfulNotes: 0,
      notesAtMost: false,
      doubtfulNotesAtMost: false,
      askedBy: 'notes',
      bytesAtMost: false,
      ways: [],
      keys: [[i % 128, i % 128]],
      velocities: [1, 127],
    },
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
  const html = fitted(whole);
  expect(dataOf(html).reduced.length).toBeGreaterThan(2);
  const bytes = Buffer.byteLength(html);
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

test('what there is room for is whole; else the page shows and holds the same reduced data', () => {
  fc.assert(
    fc.property(sizes, fc.integer({ min: 90_000, max: 600_000 }), (size, most) => {
      const whole = worst(size);
      const html = fitted(whole, most);
      const data = dataOf(html);
      const isTold = data.findings.some(({ code }) => code === 'report-page-large');
      if (pageBytes(whole) <= most) expect(html === make(whole)).toBe(true);
      else expect(isTold || data.reduced.length > 0).toBe(true);
      expect(html === make(data)).toBe(true);
      expect(Buffer.byteLength(html) > most).toBe(isTold);
    }),
    { seed: 3, numRuns: 25 },
  );
}, 120_000);

test('figures are never given up, however little room there is', () => {
  const whole = worst({ ...largest, instruments: 6, cues: 4, keys: 4, steps: 30, misses: 0 });
  const levels = new Set<string>();
  for (let most = 100_000; most < pageBytes(whole); most += 60_000) {
    const data = dataOf(fitted(whole, most));
    levels.add(data.reduced.join());
    expect(new Set(data.reduced).size).toBe(data.reduced.length);
    const figures = (of: Overview) =>
      of.instruments.map(({ bytes, zones, zonesKept, articulations }) => [
        ...[bytes, zones, zonesKept],
        articulations.map((one) => [one.zones, one.zonesKept, one.bytes]),
      ]);
    expect(figures(data)).toEqual(figures(whole));
    expect(data.total).toEqual(whole.total);
  }
  expect(levels.size).toBeGreaterThan(3);
});

test('only what takes the room is given up: steps where there are too many of them, no maps', () => {
  const whole = worst({ ...largest, instruments: 4, cues: 2, keys: 12, steps: 9000, misses: 0 });
  expect(dataOf(fitted(whole)).reduced).toEqual(['steps']);
});

test('one name of 3 MB loses its middle everywhere, and nothing else is given up', () => {
  const name = 'Violins \u{1F3BB} '.repeat(300_000);
  const small = worst({ ...largest, instruments: 2, cues: 2, keys: 12, steps: 4, misses: 2 });
  const [first, second] = small.instruments;
  const whole: Overview = {
    ...small,
    instruments: [
      { ...first!, id: name },
      { ...second!, id: `${name} ` },
    ],
    worklist: small.worklist.map((list) => ({
      ...list,
      actions: list.actions.map((step) => ({ ...step, instrument: name })),
    })),
    tracks: [name],
  };
  const html = fitted(whole);
  const data = dataOf(html);
  expect(data.reduced).toEqual(['long-names']);
  expect(data.tracks.map((track) => [...track!].length)).toEqual([120]);
  const [cut, other] = data.instruments.map(({ id }) => id);
  expect(cut).toBe(data.tracks[0]);
  // Two names stay two.
  expect(other).not.toBe(cut);
  for (const step of data.worklist.flatMap(({ actions }) => actions)) {
    expect(step.instrument).toBe(cut);
  }
  // No half of a character is left (a surrogate alone).
  expect(/\p{Surrogate}/u.test(html)).toBe(false);
  expect(data.instruments.map(({ articulations }) => articulations)).toEqual(
    whole.instruments.map(({ articulations }) => articulations),
  );
});

test('where even the least is too large the page is fuller than that, and says so', () => {
  const whole = worst({ ...largest, instruments: 3, cues: 3, steps: 3, misses: 0 });
  const html = fitted(whole, 1000);
  const data = dataOf(html);
  expect(data.findings.map(({ code }) => code)).toEqual([
    ...whole.findings.map(({ code }) => code),
    'report-page-large',
  ]);
  expect(data.reduced).not.toContain('maps');
  expect(html).toMatch(/This page is larger than 1\s000\sB/u);
});

test('steps that are left out are those that free least, and are counted', () => {
  const whole = worst({ ...largest, instruments: 20, keys: 12, steps: 4500, misses: 0 });
  const html = fitted(whole);
  const [before, after] = [whole.worklist[0]!, dataOf(html).worklist[0]!];
  expect(after.actions.length + after.unlisted.steps).toBe(4500);
  const frees = (steps: readonly { readonly frees: number }[]): number =>
    steps.reduce((sum, one) => sum + one.frees, 0);
  expect(frees(after.actions) + after.unlisted.frees).toBe(frees(before.actions));
  const shown = new Set(after.actions.map(({ number }) => number));
  const left = before.actions.filter(({ number }) => !shown.has(number));
  expect(Math.max(...left.map((one) => one.frees))).toBeLessThanOrEqual(
    Math.min(...after.actions.map((one) => one.frees)),
  );
  expect(html).toContain('more steps, which free less');
}, 60_000);
