import type { Instrument } from '../instruments/instrument.ts';
import { doubtSet, plain, union } from '../terms/doubt.ts';
import type { DoubtSets } from './doubt-sets.ts';
import type { ReachedClass } from './reach.ts';

const damage = [doubtSet('damage')];

/** What one copy of an instrument reaches, or all of them together. */
export interface Reach {
  /** Per zone, M(z). */
  readonly zones: readonly DoubtSets[];
  /** Per zone, the doubt sets under which it starts without a sound, to stop others. */
  readonly mutes: readonly DoubtSets[];
  /** Per start of the program, the same for this one way. */
  readonly starts: readonly DoubtSets[];
  /** Per start, the same with every class widened by the headroom; empty lists where there is none. */
  readonly widened: readonly DoubtSets[];
}

/** {@link Reach} while it is being counted. */
interface OpenReach extends Reach {
  readonly zones: DoubtSets[];
  readonly mutes: DoubtSets[];
  readonly starts: DoubtSets[];
  readonly widened: DoubtSets[];
}

/** Not reached: one list for all, as there are many. */
export const never: DoubtSets = [];

/** Nothing is reached yet. */
export const noReach = ({ zones, program }: Instrument): OpenReach => ({
  zones: zones.map(() => never),
  mutes: zones.map(() => never),
  starts: program.starts.map(() => never),
  widened: program.starts.map(() => never),
});

/** {@link union}, at once where the first says it all: most classes tell nothing new of a zone. */
export const both = (first: DoubtSets, second: DoubtSets): DoubtSets =>
  first[0] === plain || first === second ? first : union(first, second);

/** Takes in what a class of usage reaches. @param reach made by {@link noReach} */
export const addReach = (reach: Reach, { starts, silent, widened }: ReachedClass): void => {
  const open = reach as OpenReach;
  for (const { index, start, doubts } of starts) {
    open.starts[index] = both(open.starts[index]!, doubts);
    open.zones[start.zone] = both(open.zones[start.zone]!, doubts);
  }
  for (const { start, doubts } of silent) {
    open.mutes[start.zone] = both(open.mutes[start.zone]!, doubts);
  }
  for (const { index, doubts } of widened) {
    open.widened[index] = both(open.widened[index]!, doubts);
  }
};

/** Damage: what an unreadable stretch played is unknown, so every zone may be needed. */
export const taintReach = (reach: Reach): void => {
  const { zones, starts } = reach as OpenReach;
  for (const doubts of [zones, starts]) {
    doubts.forEach((sets, i) => {
      doubts[i] = union(sets, damage);
    });
  }
};
