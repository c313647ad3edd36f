import fc from 'fast-check';
import { expect, test } from 'vitest';
import { capacityOf } from '../../src/memory/placement/capacity.ts';
import { cutsFor } from '../../src/memory/placement/cut.ts';
import { highFigures } from '../../src/memory/placement/high-figures.ts';
import { mendPlacement } from '../../src/memory/placement/mend-placement.ts';
import { highOf, placementCase, type PlacementCase } from './random-placement.ts';

const figuresOf = ({ instruments }: PlacementCase) =>
  highFigures(instruments.map(({ loaded }) => loaded));

const crewOf = (bits: number): readonly number[] =>
  Array.from({ length: 8 }, (_, i) => i).filter((i) => (bits >> i) & 1);

const everyCrew = Array.from({ length: 2 ** 8 }, (_, bits) => crewOf(bits));

const whole = (each: PlacementCase, crew: readonly number[]): number =>
  highOf(
    each,
    each.instruments.map((_, i) => (crew.includes(i) ? 0 : 1)),
    0,
  );

test('figures of sets are those of machines', () => {
  fc.assert(
    fc.property(placementCase(), (each) => {
      const { together } = figuresOf(each);
      for (const crew of everyCrew) expect(together(crew)).toBe(whole(each, crew));
    }),
    { numRuns: 30, seed: 11 },
  );
});

test('the sums for the program are never above the figures', () => {
  let equal = 0;
  fc.assert(
    fc.property(placementCase(), fc.constantFrom(0, 1, 3, undefined), (each, most) => {
      const figures = figuresOf(each);
      const loaded = each.instruments.map((one) => one.loaded);
      const { own, pools } = capacityOf(loaded, figures, most);
      if (most !== undefined) expect(pools.length).toBeLessThanOrEqual(most);
      for (const crew of everyCrew) {
        const shared = pools.map(({ members }) =>
          Math.max(0, ...members.map((m) => (crew.includes(m.instrument) ? m.bytes : 0))),
        );
        const sum = [...crew.map((i) => own[i]!), ...shared].reduce((a, b) => a + b, 0);
        const high = figures.together(crew);
        // Sums of parts of bytes are off by less.
        expect(sum).toBeLessThanOrEqual(high + 1e-3);
        if (most === undefined && high > 0 && high - sum < 5) equal += 1;
      }
    }),
    { numRuns: 100, seed: 11 },
  );
  // Else sums of nothing would do too.
  expect(equal).toBeGreaterThan(1_000);
});

test('a cut rules out the crew it is made for, and none that fits', () => {
  let seen = 0;
  let withRelief = 0;
  fc.assert(
    fc.property(placementCase(), fc.integer({ min: 1, max: 255 }), (each, bits) => {
      const figures = figuresOf(each);
      const crew = crewOf(bits);
      each.budgets.forEach((budget, machine) => {
        if (budget === null || figures.together(crew) <= budget) return;
        const cuts = cutsFor(crew, machine, each.budgets, figures);
        const isAllowed = (
          of: readonly number[],
          { all, unless }: (typeof cuts)[number],
        ): boolean => !all.every((i) => of.includes(i)) || unless.some((i) => of.includes(i));
        const own = cuts.find((cut) => cut.machine === machine);
        expect(own !== undefined && !isAllowed(crew, own)).toBe(true);
        for (const cut of cuts) {
          seen += 1;
          if (cut.unless.length > 0) withRelief += 1;
          for (const of of everyCrew) {
            if (figures.together(of) > each.budgets[cut.machine]!) continue;
            expect(isAllowed(of, cut)).toBe(true);
          }
        }
      });
    }),
    { numRuns: 200, seed: 11 },
  );
  expect(seen).toBeGreaterThan(100);
  expect(withRelief).toBeGreaterThan(3);
});

test('what is mended fits', () => {
  let mended = 0;
  fc.assert(
    fc.property(placementCase(), (each) => {
      const homes = each.instruments.map(({ home }) => home);
      const bytes = each.instruments.map((one) => one.bytes);
      const figures = figuresOf(each);
      const found = mendPlacement(homes, { homes, bytes, budgets: each.budgets, figures });
      if (found === null) return;
      mended += 1;
      each.budgets.forEach((budget, m) => {
        if (budget !== null) expect(highOf(each, found, m)).toBeLessThanOrEqual(budget);
      });
    }),
    { numRuns: 100, seed: 11 },
  );
  expect(mended).toBeGreaterThan(20);
});
