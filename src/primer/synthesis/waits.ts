import { margin } from './held-count.ts';
import type { Performer } from './performer.ts';
import type { Wait } from './situation.ts';

/** The longest wait for what still sounds, in seconds. */
const longestWait = 8;

/** Waits that change anything at `seconds`, the shortest first. */
export const waitsOf = (performer: Performer, seconds: number): readonly Wait[] => {
  const keys = keysForgotten(performer);
  const tails = tailsOver(performer, seconds);
  return [
    ...(keys > seconds ? (['keys'] as const) : []),
    ...(tails > Math.max(keys, seconds) ? (['tails'] as const) : []),
  ];
};

/** Seconds to wait, from the last message of the performer on. */
export const waitFor = (performer: Performer, wait: Wait): number => {
  const { seconds } = performer.state;
  const keys = keysForgotten(performer);
  const until = wait === 'keys' ? keys : Math.max(keys, tailsOver(performer, seconds));
  return Math.min(longestWait, Math.max(0, until - seconds));
};

/** When no key that was let go counts as held any more. */
const keysForgotten = ({ state, plain: { program } }: Performer): number => {
  const memory = program.signals.reduce(
    (longest, one) => (one.kind === 'held' ? Math.max(longest, one.within ?? 0) : longest),
    0,
  );
  return Math.max(0, ...state.lifted.map(({ at }) => at + memory + margin));
};

/** When those tails are over that end soon enough; a wait does nothing about the others. */
const tailsOver = ({ state }: Performer, seconds: number): number =>
  Math.max(
    0,
    ...state.tails.map(({ until }) => until).filter((until) => until <= seconds + longestWait),
  );
