import type { Check, Miss, MissBars } from '../keep/check/check.ts';
import type { PlanMachine } from '../keep/plan.ts';
import { missOfUnit, type Order } from './miss-of-unit.ts';
import type { StepsOf } from './missed-steps.ts';
import type { OverviewMiss } from './overview-proof.ts';
import { toldOnce } from './told-once.ts';

/**
 * What is missing by what comes back together. What the same notes ask for of one instrument is told
 * once. What notes ask for plainly is first, then what only doubts ask for; each in the order in which it
 * is heard first.
 */
export const overviewMisses = (
  { misses, proof, total }: Pick<Check, 'misses' | 'proof' | 'total'>,
  machines: readonly PlanMachine[],
  stepsOf: StepsOf,
): readonly OverviewMiss[] => {
  const units = new Map<string, [Miss, ...Miss[]]>();
  for (const miss of misses) {
    const key = JSON.stringify([miss.instrument, miss.unit]);
    const unit = units.get(key);
    if (unit === undefined) units.set(key, [miss]);
    else unit.push(miss);
  }
  const order = heardFirst(proof.cues.map(({ id }) => id));
  const found = [...units.values()].map((unit) => missOfUnit(unit, order, total, stepsOf));
  const sharesNothing = found.reduce((sum, { bytes }) => sum + bytes, 0) === total.bytes;
  return toldOnce(found, machines, sharesNothing)
    .map(withFewBars)
    .sort((a, b) => Number(a.zones === 0) - Number(b.zones === 0) || byPlace(order, a, b));
};

const byPlace = (order: Order, { places: [a] }: OverviewMiss, { places: [b] }: OverviewMiss) =>
  a === undefined || b === undefined
    ? Number(a === undefined) - Number(b === undefined)
    : order(a, b);

const heardFirst =
  (cues: readonly string[]): Order =>
  (a, b) =>
    cues.indexOf(a.cue) - cues.indexOf(b.cue) || a.tick - b.tick || a.track - b.track;

/** More stretches of bars than these nobody reads on a page. */
const mostStretches = 24;

const withFewBars = (miss: OverviewMiss): OverviewMiss => ({
  ...miss,
  bars: few(miss.bars),
  doubtfulBars: few(miss.doubtfulBars),
});

const few = (bars: readonly MissBars[]): readonly MissBars[] =>
  bars.reduce((sum, { bars: own }) => sum + own.length, 0) > mostStretches ? [] : bars;
