import type { Program } from '../../../instruments/program.ts';
import type { Bands } from '../../../playback/bands.ts';
import type { Choice } from '../../../playback/first-moments.ts';
import { prepare } from '../../../playback/prepared-program.ts';
import { powerOnValue, resetValue } from '../../../terms/controllers.ts';
import { doubtSet, type DoubtSet } from '../../../terms/doubt.ts';
import type { Range } from '../../../terms/range.ts';

const startState = doubtSet('start-state');

/** A controller that stays on one side of a value. */
export interface Limit {
  readonly number: number;
  readonly side: 'at-most' | 'at-least';
  readonly to: number;
}

/**
 * A limit as one signal of a program obeys it; values are the lowest of their bands. Some values beyond
 * it may have been there without any message, so that nobody can keep them within: what power-on or a
 * reset leaves, and what may have been before the cue (`start-state`).
 *
 * Usage leaves out what holds under more doubts than something that says the same. So a value that was
 * sent may hide one that was there before the cue; but where that is possible, the initial value is
 * possible too, under all the doubts but that one, and can be seen.
 */
export class SignalLimit {
  readonly #bands: Bands;
  readonly #isAtMost: boolean;
  readonly #to: number;
  readonly #initial: number;
  readonly #given: readonly number[];
  readonly #before: readonly number[];

  /** @param keepsGiven such values stay; else all values are held to be sent */
  constructor(
    { number, side, to }: Limit,
    bands: Bands,
    initial: number | null,
    keepsGiven: boolean,
  ) {
    this.#bands = bands;
    this.#isAtMost = side === 'at-most';
    this.#to = bands.lowest(to);
    const beyond = (values: readonly (number | null)[]): readonly number[] =>
      values
        .flatMap((value) => (value === null || !keepsGiven ? [] : [bands.lowest(value)]))
        .filter((value) => this.isBeyond(value));
    const powerOn = powerOnValue(number);
    this.#initial = bands.lowest(initial ?? powerOn);
    this.#given = beyond([initial ?? powerOn, resetValue(number)]);
    this.#before = beyond([0, powerOn]);
  }

  get hasGiven(): boolean {
    return this.#given.length > 0 || this.#before.length > 0;
  }

  isBeyond(value: number): boolean {
    return this.#isAtMost ? value > this.#to : value < this.#to;
  }

  /** A value that a message has set. */
  sent(value: number): number {
    return this.isBeyond(value) ? this.#to : value;
  }

  /** All that one of a signal's values may become. */
  values({ value, doubt }: Numbered): readonly Numbered[] {
    const lowest = this.#bands.lowest(value);
    const stays = this.isBeyond(value) && this.#givenUnder(doubt).includes(lowest);
    return [
      { value: this.sent(value), doubt },
      ...(stays ? [{ value, doubt }] : []),
      ...(lowest === this.#initial
        ? this.#before.map((one) => ({ value: one, doubt: doubt | startState }))
        : []),
    ];
  }

  /** All that a way from one value to another may become. */
  ranges({ range: [lo, hi], doubt }: Choice): readonly Choice[] {
    const from = this.#bands.lowest(lo);
    const passes = (value: number): boolean => value >= from && value <= hi;
    const given = this.#givenUnder(doubt).filter(passes);
    const own: Range = [Math.min(this.sent(lo), ...given), Math.max(this.sent(hi), ...given)];
    const hidden = passes(this.#initial) ? this.#before : [];
    if (hidden.length === 0) return [{ range: own, doubt }];
    const wide: Range = [Math.min(own[0], ...hidden), Math.max(own[1], ...hidden)];
    return [
      { range: own, doubt },
      { range: wide, doubt: doubt | startState },
    ];
  }

  #givenUnder(doubt: DoubtSet): readonly number[] {
    return (doubt & startState) === 0 ? this.#given : [...this.#given, ...this.#before];
  }
}

interface Numbered {
  readonly value: number;
  readonly doubt: DoubtSet;
}

/** How each signal of a controller obeys a limit, by signal. */
export const signalLimits = (
  program: Program,
  limit: Limit,
  keepsGiven: boolean,
): ReadonlyMap<number, SignalLimit> => {
  const { bands } = prepare(program);
  return new Map(
    program.signals.flatMap((signal, i): readonly [number, SignalLimit][] =>
      signal.kind === 'controller' && signal.number === limit.number
        ? [[i, new SignalLimit(limit, bands[i]!, signal.initial, keepsGiven)]]
        : [],
    ),
  );
};
