import type { Program, Start } from '../../instruments/program.ts';
import type { Choices } from './choices.ts';
import { knobOf } from './demands.ts';
import { asItIs } from './knob-values.ts';
import type { Situation } from './situation.ts';

/** More ways than this to combine values are not tried. */
const mostCombinations = 240;

/**
 * Ways to put the values of choices together: the first of each, then one thing changed at a time, then
 * some of them together.
 */
export function* combinations(
  program: Program,
  start: Start,
  choices: Choices,
): Generator<Situation> {
  const names = [...choices.knobs.keys()];
  const sizes = [
    choices.keys.length,
    choices.velocities.length,
    choices.before.length,
    ...names.map((name) => choices.knobs.get(name)!.length),
  ];
  const change =
    start.change === undefined ? null : knobOf(program.signals[start.change]!, start.change);
  const { source, lane } = choices;
  const ends = start.event === 'release' || start.event === 'note-off';
  const make = (at: readonly number[]): readonly Situation[] => {
    const knobs = new Map(
      names
        .map((name, i) => [name, choices.knobs.get(name)![at[i + 3]!]!] as const)
        .filter(([knob, value]) => value !== asItIs || !knob.startsWith('switch')),
    );
    const one: Situation = {
      source,
      lane,
      event: start.event,
      key: choices.keys[at[0]!]!,
      velocity: choices.velocities[at[1]!]!,
      change,
      knobs,
      atEnd: new Map(),
      before: choices.before[at[2]!]!,
      endsLast: false,
      waits: null,
    };
    if (ends) return [one, ...endingSo(one, choices.knobs)];
    const isBound = start.event === 'note-on' && one.before.some(({ isHeld }) => isHeld);
    return isBound ? [one, { ...one, endsLast: true }] : [one];
  };
  const seen = new Set<string>();
  const fresh = (at: readonly number[]): readonly Situation[] => {
    const text = at.join();
    if (seen.has(text)) return [];
    seen.add(text);
    return make(at);
  };
  const first = sizes.map(() => 0);
  yield* fresh(first);
  for (const [place, size] of sizes.entries()) {
    for (let value = 1; value < size; value++) {
      yield* fresh(first.map((zero, i) => (i === place ? value : zero)));
    }
  }
  const all = sizes.reduce((product, size) => product * size, 1);
  const step = Math.max(1, Math.floor(all / mostCombinations));
  for (let number = 0; number < all; number += step) {
    let left = number;
    yield* fresh(
      sizes.map((size) => {
        const value = left % size;
        left = Math.floor(left / size);
        return value;
      }),
    );
  }
}

/** The same with the controllers moved while the key is down: what they ask for counts at the end. */
const endingSo = (one: Situation, knobs: Choices['knobs']): readonly Situation[] => {
  const moved = [...one.knobs].filter(
    ([knob]) => knob.startsWith('controller') || knob === 'bend' || knob === 'pressure',
  );
  return moved.flatMap(([knob, value]) =>
    (knobs.get(knob) ?? []).length === 0
      ? []
      : [0, 127]
          .filter((before) => before !== value)
          .map((before) => ({
            ...one,
            knobs: new Map([...one.knobs, [knob, before] as const]),
            atEnd: new Map([[knob, value] as const]),
          })),
  );
};
