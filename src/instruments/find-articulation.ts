import { fold } from '../notation/fold.ts';
import { nearest } from '../notation/nearest.ts';
import type { Articulation } from './instrument.ts';

/** What a name came to. */
export interface FoundArticulation {
  /** The articulations that have it, ascending; several when the name is not clear. */
  readonly indices: readonly number[];
  /** When none has it: what may have been meant. */
  readonly near: string | null;
}

/** Names that lead to articulations: whole ones, and the two halves of a preset's. */
interface Names {
  readonly whole: ReadonlyMap<string, readonly number[]>;
  readonly half: ReadonlyMap<string, readonly number[]>;
  /** What people would write. */
  readonly spellings: readonly string[];
}

/** A preset is named by bank, program and its own name; either half may be used alone. */
const preset = /^(\d+:\d+) (.+)$/su;

const namesByList = new WeakMap<readonly Pick<Articulation, 'name'>[], Names>();

const add = (names: Map<string, number[]>, name: string, articulation: number): void => {
  const key = fold(name);
  const known = names.get(key);
  if (known === undefined) names.set(key, [articulation]);
  else known.push(articulation);
};

const namesOf = (articulations: readonly Pick<Articulation, 'name'>[]): Names => {
  const known = namesByList.get(articulations);
  if (known !== undefined) return known;
  const whole = new Map<string, number[]>();
  const half = new Map<string, number[]>();
  const spellings: string[] = [];
  articulations.forEach(({ name }, i) => {
    add(whole, name, i);
    const [, number, rest] = preset.exec(name) ?? [];
    if (number !== undefined) add(half, number, i);
    if (rest !== undefined) add(half, rest, i);
    spellings.push(rest ?? name);
  });
  const names = { whole, half, spellings };
  namesByList.set(articulations, names);
  return names;
};

/**
 * The articulation that a person means: by its name, accents and case aside; a preset also by its
 * numbers or its name alone.
 *
 * @example findArticulation([{ name: '0:48 Strings' }], 'strings').indices // [0]
 */
export const findArticulation = (
  articulations: readonly Pick<Articulation, 'name'>[],
  name: string,
): FoundArticulation => {
  const { whole, half, spellings } = namesOf(articulations);
  const key = fold(name);
  const indices = whole.get(key) ?? half.get(key) ?? [];
  return { indices, near: indices.length === 0 ? nearest(name, spellings) : null };
};
