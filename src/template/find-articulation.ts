import type { Articulation } from '../instruments/instrument.ts';
import { fold } from '../notation/fold.ts';
import { nearest } from '../notation/nearest.ts';

/** What a name came to. */
export interface FoundArticulation {
  /** As the instrument spells it; null when none or several have the name. */
  readonly name: string | null;
  /** How many have it. */
  readonly matches: number;
  /** When none has it: what may have been meant. */
  readonly near: string | null;
}

/** Names that lead to articulations: whole ones, and the two halves of a preset's. */
interface Names {
  readonly whole: ReadonlyMap<string, readonly string[]>;
  readonly half: ReadonlyMap<string, readonly string[]>;
  /** What people would write. */
  readonly spellings: readonly string[];
}

/** A preset is named by bank, program and its own name; either half may be used alone. */
const preset = /^(\d+:\d+) (.+)$/su;

const namesByList = new WeakMap<readonly Pick<Articulation, 'name'>[], Names>();

const add = (names: Map<string, string[]>, name: string, articulation: string): void => {
  const key = fold(name);
  const known = names.get(key);
  if (known === undefined) names.set(key, [articulation]);
  else known.push(articulation);
};

const namesOf = (articulations: readonly Pick<Articulation, 'name'>[]): Names => {
  const known = namesByList.get(articulations);
  if (known !== undefined) return known;
  const whole = new Map<string, string[]>();
  const half = new Map<string, string[]>();
  const spellings: string[] = [];
  for (const { name } of articulations) {
    add(whole, name, name);
    const [, number, rest] = preset.exec(name) ?? [];
    if (number !== undefined) add(half, number, name);
    if (rest !== undefined) add(half, rest, name);
    spellings.push(rest ?? name);
  }
  const names = { whole, half, spellings };
  namesByList.set(articulations, names);
  return names;
};

/**
 * The articulation that a person means: by its name, accents and case aside; a preset also by its
 * numbers or its name alone.
 *
 * @example findArticulation([{ name: '0:48 Strings' }], 'strings').name // '0:48 Strings'
 */
export const findArticulation = (
  articulations: readonly Pick<Articulation, 'name'>[],
  name: string,
): FoundArticulation => {
  const { whole, half, spellings } = namesOf(articulations);
  const key = fold(name);
  const found = whole.get(key) ?? half.get(key) ?? [];
  return {
    name: found.length === 1 ? found[0]! : null,
    matches: found.length,
    near: found.length === 0 ? nearest(name, spellings) : null,
  };
};
