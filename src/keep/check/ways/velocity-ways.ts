import type { Program } from '../../../instruments/program.ts';
import { plain } from '../../../terms/doubt.ts';
import { contains } from '../../../terms/range.ts';
import type { VelocityChange, WayOut } from '../check.ts';
import { noteNumber, type PlayedClass, type PlayedCopy } from './played-copy.ts';
import type { Played } from './played.ts';

/** Velocities at which the kept zones would do. */
export class VelocityWays {
  readonly #played: Played;
  readonly #does = new Map<PlayedCopy, Map<number, boolean>>();

  constructor(played: Played) {
    this.#played = played;
  }

  /** One way with a change for every key and velocity that asks; none where one of them has none. */
  of(asking: readonly PlayedClass[]): readonly WayOut[] {
    if (asking.some(({ class: { event } }) => event === 'change')) return [];
    const copies = this.#played.concerned(asking);
    if (copies.some(({ program, isRetuned }) => isRetuned || tellsOfNotesBefore(program)))
      return [];
    const notes = new Map(
      asking.map(({ class: { key, velocity } }) => [
        noteNumber(key, velocity),
        [key, velocity] as const,
      ]),
    );
    const changes: VelocityChange[] = [];
    for (const [, [key, from]] of [...notes].sort(([a], [b]) => a - b)) {
      const own = copies.filter((copy) => copy.ofNote(key, from).length > 0);
      const to = nearestFirst(own, key, from).find((velocity) =>
        own.every((copy) => this.#doesWith(copy, key, from, velocity)),
      );
      if (to === undefined) return [];
      changes.push({ key, from, to, notes: strikes(own, key, from) });
    }
    return [{ kind: 'velocity', changes }];
  }

  #doesWith(copy: PlayedCopy, key: number, from: number, to: number): boolean {
    let known = this.#does.get(copy);
    if (known === undefined) this.#does.set(copy, (known = new Map<number, boolean>()));
    const number = noteNumber(key, from) * 128 + to;
    let does = known.get(number);
    if (does === undefined) {
      does = copy.ofNote(key, from).every(({ class: one, now }) => {
        const { missing, heard } = copy.outcome({ ...one, velocity: to });
        return missing.length === 0 && (one.event !== 'note-on' || heard >= now.heard);
      });
      known.set(number, does);
    }
    return does;
  }
}

/** The velocity of one note is heard in others. */
const tellsOfNotesBefore = ({ signals }: Program): boolean =>
  signals.some(({ kind }) => kind === 'previous-velocity');

const strikes = (copies: readonly PlayedCopy[], key: number, velocity: number): number =>
  copies
    .flatMap((copy) => copy.ofNote(key, velocity))
    .reduce(
      (sum, { class: { event, doubt, count } }) =>
        event === 'note-on' && doubt === plain ? sum + count : sum,
      0,
    );

/**
 * The velocities worth a try, the nearest first, of two as near the lower: between two limits of a
 * key's zones all velocities do the same, so the nearest stands for all.
 */
const nearestFirst = (
  copies: readonly PlayedCopy[],
  key: number,
  from: number,
): readonly number[] => {
  const limits = new Set(copies.flatMap(({ program }) => limitsOf(program, key)));
  const tries = [...limits].flatMap((limit) => {
    if (limit > from) return limit <= 127 ? [limit] : [];
    return limit > 1 ? [limit - 1] : [];
  });
  return tries.sort((a, b) => Math.abs(a - from) - Math.abs(b - from) || a - b);
};

const limits = new WeakMap<Program, Map<number, readonly number[]>>();

/** Velocities of a key from which on something else may start. */
const limitsOf = (program: Program, key: number): readonly number[] => {
  let byKey = limits.get(program);
  if (byKey === undefined) limits.set(program, (byKey = new Map<number, readonly number[]>()));
  let found = byKey.get(key);
  if (found === undefined) {
    const all = new Set<number>();
    for (const { event, keys, velocities } of program.starts) {
      if (event === 'change' || !contains(keys, key)) continue;
      all.add(velocities[0]);
      all.add(velocities[1] + 1);
    }
    byKey.set(key, (found = [...all]));
  }
  return found;
};
