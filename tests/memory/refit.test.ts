import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { computedLoad } from '../../src/memory/computed-load.ts';
import { refit, refitted } from '../../src/memory/refit.ts';
import { defaultPlayer } from '../../src/template/player.ts';
import { instrumentWith, loadedOf, playerOf, sampleOf } from './hand-made.ts';
import { norris, norrisLine } from './norris.ts';

const one = (computed: number, shown: number) => ({ copies: 1, computed, shown });

describe('two unknowns', () => {
  test('the data set Norris, as certified (NIST/ITL StRD)', () => {
    // The certified fixed part is negative, which is no memory: 1 added to each y is 1 added to B0.
    const unit = 2 ** 20;
    const fit = refit(
      defaultPlayer,
      norris.map(({ computed, shown }) => one(computed * unit, (shown + 1) * unit)),
    );
    // Seven digits, and whole bytes.
    expect(fit.factor).toBe(Number(norrisLine.factor.toPrecision(7)));
    expect(Math.abs(fit.fixed - (norrisLine.fixed + 1) * unit)).toBeLessThanOrEqual(0.5);
  });

  test('copies weigh the fixed part', () => {
    // By hand: fixed 100, factor 2. One copy of 1000, three that share 5000, two with 300 together.
    const readings = [
      { copies: 1, computed: 1000, shown: 100 + 2000 },
      { copies: 3, computed: 5000, shown: 300 + 10_000 },
      { copies: 2, computed: 300, shown: 200 + 600 },
    ];
    expect(refit(defaultPlayer, readings)).toMatchObject({
      fixed: 100,
      factor: 2,
      worstBefore: 5300,
      worstAfter: 0,
    });
  });

  test('any fixed part and factor are found again from readings of very different sizes', () => {
    const reading = fc.record({ copies: fc.integer({ min: 1, max: 20 }), step: fc.nat(99) });
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 2 ** 30 }),
        fc.integer({ min: 50, max: 300 }),
        fc.array(reading, { maxLength: 8 }),
        (fixed, hundredths, more) => {
          const factor = hundredths / 100;
          const readings = [{ copies: 1, step: 3 }, { copies: 2, step: 90 }, ...more].map(
            ({ copies, step }) => {
              const computed = (step + 1) * 100 * 2 ** 20;
              return { copies, computed, shown: copies * fixed + factor * computed };
            },
          );
          const fit = refit(defaultPlayer, readings);
          expect(fit.factor).toBeCloseTo(factor, 5);
          expect(Math.abs(fit.fixed - fixed)).toBeLessThan(2 ** 10);
          expect(fit.worstAfter).toBeLessThan(2 ** 12);
        },
      ),
    );
  });
});

describe('where the readings do not tell both', () => {
  test('one reading gives a factor', () => {
    expect(refit(defaultPlayer, [one(1000, 1040)])).toMatchObject({ fixed: 0, factor: 1.04 });
  });

  test('readings of nearly one size give a factor', () => {
    // Through the origin: (1000 x 1100 + 1040 x 1100) / (1000^2 + 1040^2).
    const fit = refit(defaultPlayer, [one(1000, 1100), one(1040, 1100)]);
    expect(fit).toMatchObject({ fixed: 0, factor: Number((2_244_000 / 2_081_600).toPrecision(7)) });
  });

  test('a little further apart they give both', () => {
    expect(refit(defaultPlayer, [one(1000, 1100), one(1060, 1160)])).toMatchObject({
      fixed: 100,
      factor: 1,
    });
  });

  test('a fixed part below zero is none', () => {
    // The line of the two points is y = 2 x - 500.
    const fit = refit(defaultPlayer, [one(1000, 1500), one(2000, 3500)]);
    expect(fit).toMatchObject({ fixed: 0, factor: 8_500_000 / 5_000_000 });
  });

  test('a line that falls is none', () => {
    // Through the origin the factor would be (3 000 000 + 3 000 000) / 5 000 000.
    const fit = refit(defaultPlayer, [one(1000, 3000), one(2000, 1500)]);
    expect(fit).toMatchObject({ fixed: 0, factor: 1 });
  });
});

test.each([
  ['nothing was read', []],
  ['nothing is computed', [one(0, 500)]],
  ['nothing was shown', [one(1000, 0)]],
  ['a unit was taken for another', [one(1000, 1_000_000)]],
])('%s: the player stays as it is', (_, readings) => {
  const player = playerOf({ perCopy: 12, perZone: 3, factor: 1.5 });
  expect(refit(player, readings)).toMatchObject({
    fixed: 0,
    factor: 1,
    keys: { 'per-copy': 12, 'per-zone': 3, factor: 1.5 },
  });
});

test('with the present factor, it is not above what a template may hold', () => {
  expect(refit(playerOf({ factor: 4 }), [one(1000, 3000)]).factor).toBe(1);
  expect(refit(playerOf({ factor: 3 }), [one(1000, 3000)]).keys.factor).toBe(9);
});

test.each(['copy', 'machine'] as const)(
  'keys in the template make the fit what is computed, shared by %s',
  (shares) => {
    const player = playerOf({ shares, factor: 1.2, perCopy: 7000, perZone: 90 });
    const instruments = [40_000, 900_000, 7_000_000].map((frames) =>
      instrumentWith([sampleOf('a', frames), sampleOf('b', 3 * frames)], [[0], [1], [0, 1]]),
    );
    const copies = [['##.'], ['#.#', '.#. x2'], ['### x3']];
    const computedWith = (by: typeof player) =>
      instruments.map((instrument, i) => {
        const load = computedLoad(instrument, by, loadedOf(instrument, by, copies[i]!).copies);
        return { copies: load.copies, computed: load.own + load.samples };
      });
    const before = computedWith(player);
    const shown = [250_000, 9_000_000, 68_000_000];
    const fit = refit(
      player,
      before.map((load, i) => ({ ...load, shown: shown[i]! })),
    );
    const { 'per-copy': perCopy, 'per-zone': perZone, factor } = fit.keys;
    expect(factor).not.toBe(player.factor);
    const after = computedWith({ ...player, perCopy, perZone, factor });
    after.forEach(({ computed }, i) => {
      const said = refitted(fit, before[i]!);
      // Half a byte a copy and a zone, and two factors of seven digits.
      expect(Math.abs(computed - said)).toBeLessThan(10 + said * 2e-7);
    });
  },
);
