import { machineMemory } from '../memory/machine-memory.ts';
import type { Finding } from '../terms/finding.ts';
import { priceAllowances } from './allowances.ts';
import { decide, settledAsPlain, type Subject } from './decision.ts';
import { headroomCurve } from './headroom-curve/headroom-curve.ts';
import { copyChoices } from './copy-choices.ts';
import { planCues } from './plan-cues.ts';
import { planFindings } from './plan-findings.ts';
import { instrumentMemory, planInstrument, type InstrumentMemory } from './plan-instrument.ts';
import { machineFigures, planMachine, type MachineMemory } from './plan-machines.ts';
import type { Plan, PlanInstrument, PlanSettings } from './plan.ts';
import { countShared } from './count-shared.ts';
import { priceDoubts } from './prices.ts';
import { pricePrinted } from './printed.ts';
import { planRare } from './rare/plan-rare.ts';
import { switchFindings } from './switch-findings.ts';
import { subjectsOf, withoutPrinted, type SubjectInput } from './subjects.ts';
import { planVersions } from './versions.ts';

/** What the user said of the cues. */
export type ReelSettings = Pick<
  PlanSettings,
  'without' | 'newest' | 'acceptPartial' | 'allowUnmapped' | 'split'
>;

/** All that decides a plan; the same values give the same plan, byte for byte. */
export interface PlanInput extends SubjectInput {
  /** What the user said of the cues, as it goes into the settings. */
  readonly reel: ReelSettings;
  /** Only some cues of the template's reel were asked for. */
  readonly isPartial: boolean;
  /** List what fewer notes than this reach; null: no list. */
  readonly rare: number | null;
  /** Find out how much room cues would have needed that nobody knew of. */
  readonly headroomCurve: boolean;
  readonly findings: readonly Finding[];
}

/** The keep sets of all instruments over a reel, with their reasons and prices. */
export const makePlan = (input: PlanInput): Plan => {
  const { template, files, findings } = input;
  const { subjects, withPrinted, findings: calibrating } = subjectsOf(input);
  const decisions = subjects.map((subject) => decide(subject, settledAsPlain(subject.settle)));
  const memory = subjects.map((subject, i) => instrumentMemory(subject, decisions[i]!));
  const unprinted = files.map(withoutPrinted);
  const planned = subjects.map((subject, i) =>
    planInstrument(
      subject,
      decisions[i]!,
      memory[i]!,
      copyChoices(subject.instrument.id, unprinted, settledAsPlain(subject.settle)),
    ),
  );
  const machines = machineFigures(template.machines, subjects, memory);
  const total = totalOf(planned, subjects, machines);
  const plan: Plan = {
    schema: 'keepset/plan@1',
    settings: settingsOf(input),
    template: template.sha256 === null ? null : { sha256: template.sha256 },
    cues: planCues(files),
    instruments: planned,
    machines: machines.map(planMachine),
    ...priceDoubts(subjects),
    printed: pricePrinted(files, withPrinted, machines, total.zonesKept),
    allowances: priceAllowances(subjects, template.pins),
    versions: planVersions(subjects, unprinted, template.headroom, {
      zones: total.zonesKept,
      bytes: total.bytes.kept,
    }),
    rare: input.rare === null ? null : planRare(subjects, decisions, unprinted, input.rare),
    headroomCurve: input.headroomCurve ? headroomCurve(subjects, unprinted) : null,
    total,
    findings: [],
  };
  return {
    ...plan,
    findings: [
      ...template.findings,
      ...[...input.instruments.values()].flatMap((instrument) => instrument.findings),
      ...calibrating,
      ...findings,
      ...subjects.flatMap(({ instrument }) => switchFindings(instrument, files)),
      ...planFindings(plan, template, subjects, {
        files,
        freed: freedBytes(subjects, memory),
        isPartial: input.isPartial,
      }),
    ],
  };
};

/** What a machine has less without an instrument: less than its figure where others share its samples. */
const freedBytes = (
  subjects: readonly Subject[],
  memory: readonly InstrumentMemory[],
): ReadonlyMap<string, number> =>
  new Map(
    subjects.map(({ instrument, machine }, i) => {
      const onIt = memory.filter((_, j) => subjects[j]!.machine === machine);
      const full = (list: readonly InstrumentMemory[]): number =>
        machineMemory(list.map((one) => one.full)).bytes;
      return [instrument.id, full(onIt) - full(onIt.filter((one) => one !== memory[i]))];
    }),
  );

/** What was chosen, as a plan tells it. */
export const settingsOf = ({ template, reel }: PlanInput): PlanSettings => ({
  instrument: template.path === null ? template.instruments[0]!.written : null,
  settle: template.settle,
  headroom: template.headroom,
  pins: template.pins.map(({ instrument, articulation, keys, velocities }) => ({
    instrument,
    articulation,
    keys,
    velocities,
  })),
  slack: template.slack,
  ...reel,
  split: reel.split ?? template.split,
});

const totalOf = (
  instruments: readonly PlanInstrument[],
  subjects: readonly Subject[],
  machines: readonly MachineMemory[],
): Plan['total'] => {
  const bytes = (of: (one: MachineMemory) => number): number =>
    machines.reduce((sum, one) => sum + of(one), 0);
  const full = bytes((one) => one.full.bytes);
  const kept = bytes((one) => one.kept.bytes);
  return {
    bytes: { full, reached: bytes((one) => one.reached.bytes), kept, saved: full - kept },
    ...countShared(instruments, subjects),
  };
};
