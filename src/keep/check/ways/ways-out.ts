import type { WayOut } from '../check.ts';
import { ArticulationWays } from './articulation-ways.ts';
import { ControllerWays } from './controller-ways.ts';
import { Played } from './played.ts';
import { VelocityWays } from './velocity-ways.ts';
import type { WaysContext } from './ways-context.ts';

/**
 * What could be played instead of what is missing, for each miss: another velocity, a controller that
 * goes less far (the smallest step first), another articulation. A way is offered only where it is
 * certain that whoever takes it finds nothing of the miss when checking again, no other miss through
 * it, and no note that has fallen silent.
 *
 * @param misses a zone (index) in a copy, or in any copy where they load alike (null)
 */
export const waysOut = (
  context: WaysContext,
  misses: readonly {
    readonly zone: number;
    readonly copy: string | null;
    readonly silent: boolean;
  }[],
): readonly (readonly WayOut[])[] => {
  const played = new Played(context);
  const velocities = new VelocityWays(played);
  const controllers = new ControllerWays(played);
  const articulations = new ArticulationWays(played, context.instrument);
  return misses.map(({ zone, copy }) => {
    const asking = played.asking(zone, copy);
    if (asking.length === 0) return [];
    return [...velocities.of(asking), ...controllers.of(asking), ...articulations.of(asking)];
  });
};
