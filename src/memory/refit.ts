import type { Player } from '../template/player.ts';
import { wholeBytes } from './figure.ts';

/** What a player showed of some copies of an instrument, and what is computed for them. */
export interface CopiesRead {
  readonly copies: number;
  /** Bytes of all of them by the player as it is: per copy, per zone and samples. */
  readonly computed: number;
  readonly shown: number;
}

/** A player fitted to readings: shown = copies x fixed + factor x computed. */
export interface Refit {
  /** Whole bytes of each copy beyond what is computed; not negative. */
  readonly fixed: number;
  /** Seven significant digits: less than a byte in ten million is lost. */
  readonly factor: number;
  /** The worst difference from a reading in whole bytes, as the player is, and fitted. */
  readonly worstBefore: number;
  readonly worstAfter: number;
  /** Values for the player in a template: with them, the fit is what is computed. */
  readonly keys: {
    readonly 'per-copy': number;
    readonly 'per-zone': number;
    readonly factor: number;
  };
}

/** The largest factor that a template may hold. */
const largestFactor = 10;

/**
 * What is computed for a copy has to differ by this part of the largest: displays show about three
 * digits (common practice), from which two instruments of nearly one size tell no slope.
 */
const leastSpread = 0.05;

/**
 * Fits a player to readings of its instruments by least squares. Where they do not tell a fixed part
 * from a factor, or the fixed part would be negative, the factor alone. Where what is shown falls as
 * more is computed, or no factor comes out that a template may hold, the player stays as it is: fixed 0,
 * factor 1.
 */
export const refit = (player: Player, readings: readonly CopiesRead[]): Refit => {
  const line = both(readings);
  const needsOrigin = line === null || (line.fixed < 0 && line.factor > 0);
  const fit = needsOrigin ? factorAlone(readings) : line;
  const isUsable =
    fit !== null && isFactor(fit.factor) && isFactor(digits(fit.factor) * player.factor);
  const fixed = isUsable ? wholeBytes(fit.fixed) : 0;
  const factor = isUsable ? digits(fit.factor) : 1;
  return {
    fixed,
    factor,
    worstBefore: worst(readings, 0, 1),
    worstAfter: worst(readings, fixed, factor),
    keys: {
      'per-copy': wholeBytes(fixed + factor * player.perCopy),
      'per-zone': wholeBytes(factor * player.perZone),
      factor: digits(factor * player.factor),
    },
  };
};

/** What a fitted player says of copies, in whole bytes. */
export const refitted = (
  { fixed, factor }: Pick<Refit, 'fixed' | 'factor'>,
  { copies, computed }: Pick<CopiesRead, 'copies' | 'computed'>,
): number => wholeBytes(copies * fixed + factor * computed);

interface Fit {
  readonly fixed: number;
  readonly factor: number;
}

/**
 * Least squares with two unknowns. The part of `computed` and `shown` that goes with the number of copies
 * is taken off first, as the means are in a regression with a constant: that keeps the digits of large
 * byte counts.
 */
const both = (readings: readonly CopiesRead[]): Fit | null => {
  const perCopy = readings.map(({ copies, computed }) => computed / copies);
  const most = Math.max(...perCopy);
  if (readings.length < 2 || most - Math.min(...perCopy) <= leastSpread * most) return null;
  const squares = sum(readings, ({ copies }) => copies ** 2);
  const computed = sum(readings, (one) => one.copies * one.computed) / squares;
  const shown = sum(readings, (one) => one.copies * one.shown) / squares;
  const rest = readings.map((one) => ({
    computed: one.computed - one.copies * computed,
    shown: one.shown - one.copies * shown,
  }));
  const factor =
    sum(rest, (one) => one.computed * one.shown) / sum(rest, (one) => one.computed ** 2);
  return { fixed: shown - factor * computed, factor };
};

const factorAlone = (readings: readonly CopiesRead[]): Fit | null => {
  const squares = sum(readings, ({ computed }) => computed ** 2);
  if (squares === 0) return null;
  return { fixed: 0, factor: sum(readings, (one) => one.computed * one.shown) / squares };
};

/** Rounded, as a template would hold it. */
const isFactor = (factor: number): boolean => factor > 0 && digits(factor) <= largestFactor;

const digits = (factor: number): number => Number(factor.toPrecision(7));

const worst = (readings: readonly CopiesRead[], fixed: number, factor: number): number =>
  readings.reduce(
    (most, one) => Math.max(most, Math.abs(one.shown - refitted({ fixed, factor }, one))),
    0,
  );

const sum = <Item>(items: readonly Item[], of: (item: Item) => number): number =>
  items.reduce((total, item) => total + of(item), 0);
