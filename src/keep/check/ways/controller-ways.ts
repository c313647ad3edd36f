import { prepare } from '../../../playback/prepared-program.ts';
import type { WayOut } from '../check.ts';
import { clampableControllers } from './clampable.ts';
import type { Limit } from './limit.ts';
import { LimitedCopy } from './limited-copy.ts';
import type { PlayedClass, PlayedCopy } from './played-copy.ts';
import type { Played } from './played.ts';

type ControllerWay = Extract<WayOut, { kind: 'controller' }>;

const sides = ['at-most', 'at-least'] as const;

/** Limits to controllers within which the kept zones would do. */
export class ControllerWays {
  readonly #played: Played;
  readonly #limited = new Map<PlayedCopy, Map<string, LimitedCopy>>();

  constructor(played: Played) {
    this.#played = played;
  }

  /** For each controller the smallest step that helps, the smallest of all first. */
  of(asking: readonly PlayedClass[]): readonly WayOut[] {
    const copies = this.#played.concerned(asking);
    return clampableIn(copies)
      .flatMap((number) => {
        const ways = sides.flatMap((side) => this.#way(number, side, asking, copies) ?? []);
        return ways.sort((a, b) => step(a) - step(b)).slice(0, 1);
      })
      .sort((a, b) => step(a) - step(b) || a.number - b.number);
  }

  #way(
    number: number,
    limit: ControllerWay['limit'],
    asking: readonly PlayedClass[],
    copies: readonly PlayedCopy[],
  ): ControllerWay | null {
    const from = extreme(copies, number, limit);
    if (from === null) return null;
    const to = steps(copies, number, limit, from).find((value) => {
      const own = { number, side: limit, to: value };
      return (
        asking.every((one) => this.#limitedCopy(one.copy, own).isCovered(one)) &&
        copies.every((copy) => this.#limitedCopy(copy, own).isHarmless)
      );
    });
    return to === undefined ? null : { kind: 'controller', number, limit, from, to };
  }

  #limitedCopy(copy: PlayedCopy, limit: Limit): LimitedCopy {
    let limited = this.#limited.get(copy);
    if (limited === undefined) {
      this.#limited.set(copy, (limited = new Map<string, LimitedCopy>()));
    }
    const at = `${String(limit.number)} ${limit.side} ${String(limit.to)}`;
    let found = limited.get(at);
    if (found === undefined) limited.set(at, (found = new LimitedCopy(copy, limit)));
    return found;
  }
}

const step = ({ from, to }: ControllerWay): number => Math.abs(from - to);

/** Controllers that some of the copies listen to, and that do nothing else in any of them. */
const clampableIn = (copies: readonly PlayedCopy[]): readonly number[] => {
  const sent = new Set(
    copies.flatMap(({ usage }) => usage.controllers.map(({ number }) => number)),
  );
  return [...sent]
    .filter((number) =>
      copies.every(({ program }) => clampableControllers(program).includes(number)),
    )
    .sort((a, b) => a - b);
};

/** The furthest a controller goes in some copies; null where it is never sent. */
const extreme = (
  copies: readonly PlayedCopy[],
  number: number,
  side: Limit['side'],
): number | null => {
  const ranges = copies.flatMap(({ usage }) =>
    usage.controllers.filter((one) => one.number === number).map(({ range }) => range),
  );
  if (ranges.length === 0) return null;
  return side === 'at-most'
    ? Math.max(...ranges.map(([, hi]) => hi))
    : Math.min(...ranges.map(([lo]) => lo));
};

/**
 * The values worth a try, the nearest to what is played first: between two limits of the zones all
 * values do the same, so the nearest stands for all.
 */
const steps = (
  copies: readonly PlayedCopy[],
  number: number,
  side: Limit['side'],
  from: number,
): readonly number[] => {
  const edges = new Set(
    copies.flatMap(({ program }) =>
      program.signals.flatMap((signal, i) =>
        signal.kind === 'controller' && signal.number === number
          ? prepare(program).bands[i]!.between(-1, 128).slice(1)
          : [],
      ),
    ),
  );
  const ascending = [...edges].sort((a, b) => a - b);
  return side === 'at-most'
    ? ascending
        .filter((edge) => edge >= 1 && edge <= from)
        .map((edge) => edge - 1)
        .reverse()
    : ascending.filter((edge) => edge > from && edge <= 127);
};
