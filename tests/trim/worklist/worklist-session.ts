import { makePlan, type PlanInput } from '../../../src/keep/make-plan.ts';
import type { Plan } from '../../../src/keep/plan.ts';
import type { Ledger } from '../../../src/trim/worklist/ledger/ledger.ts';
import { readLedger } from '../../../src/trim/worklist/ledger/read-ledger.ts';
import { writeLedger } from '../../../src/trim/worklist/ledger/write-ledger.ts';
import { makeWorklist } from '../../../src/trim/worklist/make-worklist.ts';
import type { Worklist, WorklistAction } from '../../../src/trim/worklist/worklist.ts';

export const keep = { path: 'keep.json', sha256: 'f'.repeat(64) };

/** A person's record from one list to the next; each time it is written to a file and read again. */
export class Session {
  readonly input: PlanInput;
  plan: Plan;
  ledger: Ledger | null = null;

  constructor(input: PlanInput) {
    this.input = input;
    this.plan = makePlan(input);
  }

  list(done: readonly number[] = [], undo: readonly number[] = []): Worklist {
    const { template, instruments } = this.input;
    const { worklist, ledger } = makeWorklist({
      ...{ keep, plan: this.plan, template, instruments },
      ledger: { path: 'loaded.csv', read: this.ledger },
      ticks: { done, undo },
    });
    this.ledger = readLedger(new TextEncoder().encode(writeLedger(ledger)), 'loaded.csv');
    return worklist;
  }
}

export const actionsOf = ({ machines }: Pick<Worklist, 'machines'>): readonly WorklistAction[] =>
  machines.flatMap(({ actions }) => actions);

/** The copies that an action is about. */
export const slotOf = ({ instrument, copy, spareCopies }: WorklistAction): string =>
  JSON.stringify([instrument, spareCopies > 0 ? 'spare' : copy]);
