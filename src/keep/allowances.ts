import { machineMemory } from '../memory/machine-memory.ts';
import type { Pin } from '../template/template.ts';
import { decide, loadedUnder, settledAsPlain, type Subject } from './decision.ts';
import type { DoubtSets } from './doubt-sets.ts';
import { why } from './keep-set.ts';
import type { PlanAllowance, PlanAllowances } from './plan.ts';
import type { Reach } from './open-reach.ts';

const never: DoubtSets = [];

const nothing: PlanAllowance = { zones: 0, bytes: 0 };

/**
 * What the user keeps beyond what is needed, priced: what would go without the headroom, and without
 * each pin, all else as it is. What another rule keeps anyway costs nothing here.
 *
 * @param pins all pins of the plan, in its order
 */
export const priceAllowances = (
  subjects: readonly Subject[],
  pins: readonly Pin[],
): PlanAllowances => {
  const hasRoom = subjects.some(({ tally: { reach } }) =>
    reach.widened.some((sets) => sets.length > 0),
  );
  if (!hasRoom && pins.length === 0) return { headroom: nothing, pins: [] };
  const now = keptUnder(subjects);
  const without = (change: (subject: Subject) => Subject): PlanAllowance => {
    const then = keptUnder(subjects.map(change));
    return { zones: now.zones - then.zones, bytes: now.bytes - then.bytes };
  };
  return {
    headroom: hasRoom ? without(withoutRoom) : nothing,
    pins: pins.map((pin) =>
      without((subject) => ({ ...subject, pins: subject.pins.filter((own) => own !== pin) })),
    ),
  };
};

const withoutRoom = (subject: Subject): Subject => {
  const narrow = (reach: Reach): Reach => ({ ...reach, widened: reach.widened.map(() => never) });
  const { tally } = subject;
  const copies = tally.copies.map((copy) => ({
    ...copy,
    reach: copy.reach === null ? null : narrow(copy.reach),
  }));
  return { ...subject, tally: { ...tally, reach: narrow(tally.reach), copies } };
};

/** Zones count by instrument, as prices of doubts do. */
const keptUnder = (subjects: readonly Subject[]): PlanAllowance => {
  const decided = subjects.map((subject) => ({
    subject,
    decision: decide(subject, settledAsPlain(subject.settle)),
  }));
  const zones = decided.reduce(
    (sum, { decision }) =>
      sum + decision.whole.why.reduce((n, reason) => n + Number(reason !== why.dropped), 0),
    0,
  );
  const machines = new Set(subjects.map(({ machine }) => machine));
  const bytes = [...machines].reduce((sum, machine) => {
    const own = decided.filter(({ subject }) => subject.machine === machine);
    return (
      sum + machineMemory(own.map(({ subject, decision }) => loadedUnder(subject, decision))).bytes
    );
  }, 0);
  return { zones, bytes };
};
