import type { SwitchTest } from '../notation/switch.ts';
import type { Range } from '../terms/range.ts';

/** The values of its signal that a switch accepts; the engine counts channels from 1. */
export const switchRange = (test: SwitchTest): Range => {
  switch (test.kind) {
    case 'key':
      return [test.key, test.key];
    case 'channel':
      return [test.channel + 1, test.channel + 1];
    case 'program':
    case 'controller':
      return test.range;
  }
};

/**
 * Which of some switches share a value with another one, so that one event can answer both.
 *
 * @returns for each switch whether it does, in the same order
 */
export const sharedValues = (switches: readonly (SwitchTest | null)[]): readonly boolean[] => {
  const shared = switches.map(() => false);
  const bySource = new Map<string, { readonly index: number; readonly range: Range }[]>();
  switches.forEach((test, index) => {
    if (test === null) return;
    const source = test.kind === 'controller' ? `controller ${String(test.number)}` : test.kind;
    const one = { index, range: switchRange(test) };
    const others = bySource.get(source);
    if (others === undefined) bySource.set(source, [one]);
    else others.push(one);
  });
  for (const all of bySource.values()) {
    all.sort((a, b) => a.range[0] - b.range[0]);
    let farthest = all[0]!;
    for (const one of all.slice(1)) {
      if (one.range[0] <= farthest.range[1]) {
        shared[one.index] = true;
        shared[farthest.index] = true;
      }
      if (one.range[1] > farthest.range[1]) farthest = one;
    }
  }
  return shared;
};
