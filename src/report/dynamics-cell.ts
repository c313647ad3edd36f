import type { PlanArticulation } from '../keep/plan.ts';
import type { Range } from '../terms/range.ts';
import { fixed, shortened, type Cell } from './cell.ts';

const span = ([lo, hi]: Range): string => (lo === hi ? String(lo) : `${String(lo)}-${String(hi)}`);

/** Controllers that a row names; an instrument that follows more of them is not read off a table. */
const mostControllers = 3;

/**
 * How loud and how bright an articulation is played: its velocities, and how far the controllers go
 * that shape its sound.
 *
 * @example dynamicsCell(articulation).whole // 'v 12-113, CC1 0-101'
 */
export const dynamicsCell = ({
  velocities,
  controllers,
}: Pick<PlanArticulation, 'velocities' | 'controllers'>): Cell => {
  if (velocities === null && controllers.length === 0) return fixed('');
  const shown = controllers.slice(0, mostControllers);
  const rest = controllers.length - shown.length;
  const items = [
    ...(velocities === null ? [] : [`v ${span(velocities)}`]),
    ...shown.map(({ number, range }) => `CC${String(number)} ${span(range)}`),
    ...(rest > 0 ? [`+${String(rest)}`] : []),
  ];
  return shortened([items.join(', '), items.join(' ')]);
};
