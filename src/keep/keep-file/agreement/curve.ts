import type { Plan, PlanHeadroomCurve } from '../../plan.ts';
import type { Disagreements } from './disagreements.ts';

/** @param ids of the cues */
export const curveAgrees = (
  { versions }: Plan,
  { cues, revisions, steps }: PlanHeadroomCurve,
  ids: ReadonlySet<string>,
  found: Disagreements,
): void => {
  // A cue in several versions is left out as a whole, and goes by its number.
  const names = new Set([...ids, ...versions.map(({ cue }) => cue)]);
  for (const { headroom, cuesServed, revisionsServed, missed, zones, bytes } of steps) {
    const { keys, velocity, controller } = headroom;
    const of = `${String(keys)}/${String(velocity)}/${String(controller)}`;
    if (Math.max(keys, velocity, controller) === 0) {
      found.same('curve-zones', zones, 0, of);
      found.same('curve-bytes', bytes, 0, of);
    }
    found.atMost('curve-served', cuesServed, cues, of);
    found.atMost('curve-served', revisionsServed, revisions, of);
    for (const name of missed) found.known('curve-missed', name, names, of);
    found.same('curve-missed', missed.length, cues + revisions - cuesServed - revisionsServed, of);
  }
};
