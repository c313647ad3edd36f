import { doubtNames } from '../../terms/doubt.ts';
import type { Reason } from '../plan.ts';
import type { CellState } from './key-map.ts';

/** Every reason, in the order in which a cell tells them. */
const allReasons: readonly Reason[] = [
  'played',
  ...doubtNames,
  'linked',
  'pinned',
  'headroom',
  'grain',
  'mutes',
];

const bits = new Map(allReasons.map((reason, bit) => [reason, 1 << bit]));
const played = bits.get('played')!;
const doubtful = doubtNames.reduce((mask, name) => mask | bits.get(name)!, 0);

/** Reasons as a bit mask. */
export const reasonMask = (reasons: readonly Reason[]): number =>
  reasons.reduce((mask, reason) => mask | bits.get(reason)!, 0);

export const reasonsIn = (mask: number): readonly Reason[] =>
  allReasons.filter((reason) => (mask & bits.get(reason)!) !== 0);

/** What became of zones that stay for these reasons; none stays without one. */
export const stateFor = (mask: number): CellState => {
  if (mask === 0) return 'dropped';
  if ((mask & played) !== 0) return 'kept';
  return (mask & doubtful) !== 0 ? 'doubtful' : 'spare';
};
