import type { Overview } from '../../../overview/overview.ts';
import type { OverviewStep } from '../../../overview/overview-steps.ts';

/**
 * The steps that free most of all machines together, in the order of their lists. What is to be loaded
 * stays on the list, without it something is missing; so does what is not to be done.
 */
export const withSteps = (overview: Overview, most: number): Overview => {
  const all = overview.worklist.flatMap(({ actions }) => actions);
  if (all.length <= most) return overview;
  const stays = new Set(
    [...all].sort((a, b) => worth(b) - worth(a) || a.number - b.number).slice(0, most),
  );
  return {
    ...overview,
    worklist: overview.worklist.map((list) => {
      const actions = list.actions.filter((step) => stays.has(step));
      const left = list.actions.filter((step) => !stays.has(step));
      return {
        ...list,
        actions,
        unlisted: {
          steps: list.unlisted.steps + left.length,
          frees: left.reduce((sum, { frees }) => sum + frees, list.unlisted.frees),
        },
      };
    }),
  };
};

const worth = ({ does, missed, frees }: OverviewStep): number =>
  does === 'load' || missed !== null ? Infinity : frees;
