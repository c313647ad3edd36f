import { doubtSet, plain, type DoubtSet } from '../../terms/doubt.ts';
import { intersect, type Range } from '../../terms/range.ts';
import type { Condition } from '../program.ts';
import type { Compiling } from './compiling.ts';
import { keysIn } from './key-reach.ts';
import type { OutlineZone } from './outline-zone.ts';

const stretch = doubtSet('stretch');

const everyKey: Range = [0, 127];

/**
 * A key goes down while another one is held: the transition between them. Plain from the note-on
 * before, which has to be held still; from any other held key in reach under `stretch`.
 */
export const transitionStarts = (one: Compiling, zone: OutlineZone, number: number): void => {
  const { own, gates, starts } = one;
  const within = own.legato?.overlap ?? null;
  const always = (): readonly Condition[] => [...gates.choice(own), ...gates.when(own, true)];
  const event = 'note-on';
  const { interval } = zone;
  if (interval === null) {
    const gate = gates.of([...always(), gates.isAnyHeld(within)]);
    const { keys } = zone;
    starts.add({ zone: number, event, gate, keys: keys.plain, doubt: one.doubt });
    starts.add({ zone: number, event, gate, keys: keys.doubtful, doubt: one.doubt | stretch });
    return;
  }
  for (const { key, doubt } of targetsOf(one, zone)) {
    const from = key - interval;
    if (from < everyKey[0] || from > everyKey[1]) continue;
    const add = (name: string, conditions: () => readonly Condition[], more: DoubtSet): void => {
      const gate = gates.once(own, `${name} ${String(from)}`, conditions);
      starts.add({ zone: number, event, gate, keys: [[key, key]], doubt: doubt | more });
    };
    if (within === null) {
      add('sure', () => [...always(), ...gates.isHeldPrevious(from)], plain);
      add('any', () => [...always(), gates.isHeldOrPrevious(from)], stretch);
    } else {
      add(
        'window',
        () => [...always(), gates.isHeld(from, within), gates.wasPrevious(from)],
        plain,
      );
    }
  }
};

/**
 * A key goes up while another one is still held: back to that one, by its transition and by its own
 * zones. The event tells the velocity of the key that went up.
 */
export const returnStarts = (one: Compiling, zone: OutlineZone, number: number): void => {
  const { own, gates, starts } = one;
  const { legato } = own;
  if (legato === null || legato.returns === false) return;
  const back = (key: number): number =>
    gates.once(own, `back ${String(key)}`, () => [
      ...gates.choice(own),
      ...gates.when(own, false),
      gates.isHeld(key, null),
    ]);
  const more = legato.returns === null ? stretch : plain;
  for (const { key, doubt } of targetsOf(one, zone)) {
    const keys = gates.played(lettingGo(zone, key, legato.intervals));
    const start = { zone: number, event: 'note-off', keys, gate: back(key) } as const;
    starts.addReturn({ ...start, doubt: doubt | more });
  }
};

/** The keys that play a zone, each by itself, and what is in doubt of that. */
const targetsOf = (
  { doubt }: Compiling,
  { keys }: OutlineZone,
): readonly { readonly key: number; readonly doubt: DoubtSet }[] => [
  ...keysIn(keys.plain).map((key) => ({ key, doubt })),
  ...keysIn(keys.doubtful).map((key) => ({ key, doubt: doubt | stretch })),
];

/** The keys that may go up so that a zone brings `key` back: those in reach, or just one interval away. */
const lettingGo = (
  { interval }: OutlineZone,
  key: number,
  intervals: number | null,
): readonly Range[] => {
  if (interval !== null) return within([[key - interval, key - interval]]);
  const reach = intervals ?? everyKey[1];
  return within([
    [key - reach, key - 1],
    [key + 1, key + reach],
  ]);
};

const within = (ranges: readonly Range[]): readonly Range[] =>
  ranges.flatMap((range) => {
    const some = intersect(range, everyKey);
    return some === null ? [] : [some];
  });
