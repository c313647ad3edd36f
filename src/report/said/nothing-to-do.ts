import type { Overview } from '../../overview/overview.ts';

/** Why there is nothing to do first: what stands in place of the steps that free most. */
export const nothingToDo = ({ worklist }: Overview): string => {
  const steps = worklist.flatMap(({ actions }) => actions);
  // What a large page leaves out of its list is not against what was checked.
  const unlisted = worklist.reduce((sum, list) => sum + list.unlisted.steps, 0);
  if (steps.length + unlisted === 0) return 'Nothing to unload.';
  const doable = steps.filter(({ missed }) => missed === null);
  if (doable.length + unlisted === 0) {
    return 'No step is to be done: what was checked needs all that they unload.';
  }
  return doable.some(({ unknownSamples }) => unknownSamples > 0)
    ? 'Nobody knows how much the steps of the worklist free: their samples are not there to be measured.'
    : 'No step that may be done frees any memory.';
};
