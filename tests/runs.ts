/**
 * How many cases random tests take. `npm test` takes a quarter of the number that stands in a test, and
 * `npm run test:full` (`KEEPSET_FULL=1`) all of it. The cases of the quarter are the first of all.
 */
export const isFull = process.env['KEEPSET_FULL'] === '1';

const part = 4;

/**
 * The number of cases of a random test.
 *
 * @param full all of them
 * @param least what less would not prove: a rare case must come up, or a mutant must be caught
 */
export const runs = (full: number, least = 1): number =>
  isFull ? full : Math.max(Math.ceil(full / part), Math.min(least, full));

/** How often something must have come up in {@link runs}, where in all of them it must so often. */
export const share = (full: number): number => (isFull ? full : Math.floor(full / part));

/** Of many near-equal cases every fourth, or all. */
export const some = <Case>(cases: readonly Case[]): readonly Case[] =>
  isFull ? cases : cases.filter((_, i) => i % part === 0);
