import type { Plan, PlanDoubt } from '../../plan.ts';
import type { Disagreements } from './disagreements.ts';
import { isComputed } from './instruments.ts';

/** @returns the names of the doubts that are priced */
export const doubtsAgree = (plan: Plan, found: Disagreements): ReadonlySet<string> => {
  const { doubts, together, doubtsAll, total, instruments } = plan;
  const names = found.once(
    'doubt',
    doubts.map(({ name }) => name),
  );
  // Where displays were read, less may seem to take more.
  const most = instruments.every(isComputed) ? doubtsAll : total.bytes.kept;
  found.atMost('doubts-bytes', doubtsAll, total.bytes.kept);
  if (doubts.length === 0) found.same('doubts-bytes', doubtsAll, 0);
  for (const doubt of doubts) doubtAgrees(plan, doubt, most, found);
  const open = new Map(
    doubts.filter(({ settled }) => settled === null).map(({ name, bytes }) => [name, bytes]),
  );
  for (const { names: group, bytes } of together) {
    const of = group.join(' + ');
    for (const name of found.once('together', group, of)) found.known('together', name, open, of);
    found.atLeast('together-names', group.length, 2, of);
    found.atMost('together-names', group.length, 3, of);
    found.atMost('together-bytes', bytes, most, of);
    const alone = group.reduce((sum, name) => sum + (open.get(name) ?? 0), 0);
    if (group.length === 2) found.atLeast('together-bytes', bytes, alone + 1, of);
  }
  return names;
};

const doubtAgrees = (
  { instruments }: Plan,
  { name, settled, zones, bytes }: PlanDoubt,
  most: number,
  found: Disagreements,
): void => {
  const answers = new Set(instruments.map(({ settle }) => settle[name] ?? null));
  const says = settled ?? 'open';
  if (!answers.has(settled)) found.never('doubt-answer', says, name);
  const isOpen = instruments.some(
    ({ settle, kept }) =>
      settle[name] === undefined && kept.some(({ reasons }) => reasons.includes(name)),
  );
  if (isOpen) found.same('doubt-answer', says, 'open', name);
  const sum = (of: (one: Plan['instruments'][number]) => number): number =>
    instruments.reduce((all, one) => all + of(one), 0);
  const isDropped = settled === 'plain';
  const limit = isDropped ? sum(({ dropped }) => dropped.length) : sum(({ kept }) => kept.length);
  found.atMost('doubt-zones', zones, limit, name);
  found.atLeast('doubt-zones', zones, 0, name);
  if (!isDropped) found.atMost('doubt-bytes', bytes, most, name);
};
