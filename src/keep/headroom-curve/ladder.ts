import type { Headroom } from '../../template/template.ts';
import type { Rooms } from './part-of-reel.ts';

/** Semitones that are tried. */
const keySteps = [0, 1, 2, 3, 4, 6, 12] as const;

/** Steps of velocity and of controllers that are tried, the same for both. */
const roomSteps = [0, 8, 16, 32] as const;

/** By how much controllers are widened: usage has to be played with each of these as a room. */
export const controllerSteps: readonly number[] = roomSteps.filter((step) => step > 0);

/** Headroom as it is tried. */
export interface LadderPoint {
  readonly headroom: Headroom;
  /** Index into the rooms of {@link ladder}. */
  readonly room: number;
}

/** What the points ask of usage. */
export const ladder: Rooms = {
  rooms: roomSteps.map((step) => ({ velocity: step, controller: step })),
  keys: Math.max(...keySteps),
};

/** All that are tried, none first, the most last. */
export const ladderPoints: readonly LadderPoint[] = keySteps.flatMap((keys) =>
  ladder.rooms.map((room, i) => ({ headroom: { keys, ...room }, room: i })),
);
