import type { TableArticulation } from './table-articulations.ts';

/**
 * What decides which articulation of a table plays: nothing has to where there is one at the most,
 * their switches, or something that the table does not know.
 */
export const playsBySwitch = (
  articulations: readonly TableArticulation[],
): 'nothing' | 'switch' | 'unknown' => {
  const named = articulations.filter(({ isNamed }) => isNamed);
  if (named.length < 2) return 'nothing';
  return named.some((one) => one.switch !== null) ? 'switch' : 'unknown';
};
