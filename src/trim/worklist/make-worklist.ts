import type { Instrument } from '../../instruments/instrument.ts';
import type { Plan } from '../../keep/plan.ts';
import type { Template } from '../../template/template.ts';
import { finding, type Finding } from '../../terms/finding.ts';
import { recordedAction, doneZones } from './done-zones.ts';
import { emptyLedger, type Ledger } from './ledger/ledger.ts';
import { tick, type Ticks } from './ledger/tick.ts';
import { machineList } from './machine-list.ts';
import { number } from './numbering.ts';
import { slottedInstruments } from './slots.ts';
import { stepsOf } from './steps.ts';
import type { Worklist, WorklistMachine } from './worklist.ts';

export interface WorklistInput {
  readonly keep: Worklist['keep'];
  readonly plan: Plan;
  /** As it was when the plan was made. */
  readonly template: Template;
  /** Those of the plan, by id. */
  readonly instruments: ReadonlyMap<string, Instrument>;
  /** The record; null: none is kept. `read`: what it holds; null: it is not there yet. */
  readonly ledger: { readonly path: string; readonly read: Ledger | null } | null;
  readonly ticks: Ticks;
}

export interface MadeWorklist {
  readonly worklist: Worklist;
  /** The record as it is to be written. */
  readonly ledger: Ledger;
}

/**
 * The steps by which a person gets from what is loaded to what a plan keeps (design, section 9).
 *
 * @throws {InputError} when the record does not belong to these instruments, or has not the numbers that
 *   are ticked
 */
export const makeWorklist = (input: WorklistInput): MadeWorklist => {
  const { keep, plan, template } = input;
  const file = input.ledger?.path ?? null;
  const ticked = tick(input.ledger?.read ?? emptyLedger, input.ticks, file);
  const instruments = slottedInstruments(plan, template, input.instruments);
  const { loaded, findings } = doneZones(instruments, ticked, file);
  const byMachine = template.machines.map(({ id }) =>
    instruments.filter(({ machine }) => machine === id),
  );
  const steps = byMachine.map((own) => stepsOf(own, loaded));
  const { entries, ledger } = number(steps.flat(), ticked, file);
  let next = 0;
  const machines = template.machines.map(({ id, budget }, m) => {
    const own = steps[m]!.map((step) => ({ step, entry: entries[next++]! }));
    return machineList({ id, budget }, byMachine[m]!, own, loaded);
  });
  const byNumber = [...ledger.entries].sort((a, b) => a.number - b.number);
  return {
    worklist: {
      schema: 'keepset/worklist@1',
      keep,
      ledger: file === null ? null : { path: file, isNew: input.ledger?.read === null },
      machines,
      done: byNumber.filter(({ state }) => state === 'done').map(recordedAction),
      void: byNumber.filter(({ state }) => state === 'void').map(recordedAction),
      findings: [...notProved(plan, keep.path), ...muteFindings(plan, machines), ...findings],
    },
    ledger,
  };
};

/** What a plan could not see, it can't vouch for. */
const notProved = ({ cues, settings, findings }: Plan, file: string): readonly Finding[] => {
  const unread = cues.filter(({ state }) => state !== 'read').map(({ id }) => id);
  const unmapped = settings.allowUnmapped
    ? 0
    : findings.reduce(
        (sum, one) => (one.code === 'part-unmapped' ? sum + one.args.tracks.length : sum),
        0,
      );
  if (unread.length === 0 && unmapped === 0) return [];
  return [finding('warning', 'worklist-not-proved', file, { cues: unread, unmapped })];
};

/** A plan keeps what only stops others without its samples; a person can't load it so. */
const muteFindings = (
  { instruments, machines: planned }: Plan,
  machines: readonly WorklistMachine[],
): readonly Finding[] =>
  machines.flatMap(({ id, bytes }): readonly Finding[] => {
    const more = bytes.after - (planned.find((one) => one.id === id)?.bytes.kept ?? 0);
    const zones = instruments
      .filter(({ machine }) => machine === id)
      .flatMap(({ kept }) => kept.filter(({ reasons }) => reasons.includes('mutes'))).length;
    if (more <= 0 || zones === 0) return [];
    return [finding('note', 'worklist-mutes', null, { machine: id, zones, bytes: more })];
  });
