import { fold } from '../notation/fold.ts';
import type { Articulation } from './instrument.ts';

/**
 * The articulations that a person may mean by a name: by their folded names, and for the presets of a
 * bank also by `bank:program` or the name alone.
 *
 * @returns indices, ascending; more than one when the name is not clear
 * @example findArticulations([{ name: '0:48 Strings', … }], 'strings') // [0]
 */
export const findArticulations = (
  articulations: readonly Pick<Articulation, 'name'>[],
  name: string,
): readonly number[] => {
  const wanted = fold(name);
  const whole = articulations.flatMap((one, i) => (fold(one.name) === wanted ? [i] : []));
  if (whole.length > 0) return whole;
  return articulations.flatMap((one, i) => {
    const preset = /^(\d+:\d+)(?: (.*))?$/s.exec(one.name);
    const parts = preset === null ? [] : [preset[1]!, preset[2] ?? ''];
    return parts.some((part) => part !== '' && fold(part) === wanted) ? [i] : [];
  });
};
