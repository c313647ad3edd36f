import type { Instrument } from '../instruments/instrument.ts';
import { calibrate } from '../memory/calibrate.ts';
import { machineMemory } from '../memory/machine-memory.ts';
import type { FileUsage } from '../playback/zone-usage.ts';
import type { Template, TemplateInstrument } from '../template/template.ts';
import type { Finding } from '../terms/finding.ts';
import type { Settlements } from '../terms/settlement.ts';
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
import { tallyUsage } from './tally.ts';
import { planVersions } from './versions.ts';

/** What the user said of the cues. */
export type ReelSettings = Pick<
  PlanSettings,
  'without' | 'newest' | 'acceptPartial' | 'allowUnmapped' | 'split'
>;

/** All that decides a plan; the same values give the same plan, byte for byte. */
export interface PlanInput {
  /** With the user's answers, headroom and pins from the command line put in. */
  readonly template: Template;
  /** Every instrument of the template, by id. */
  readonly instruments: ReadonlyMap<string, Instrument>;
  /** Usage of every cue file, in reel order. */
  readonly files: readonly FileUsage[];
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
  const calibrated = template.instruments.map((one) =>
    calibrate(input.instruments.get(one.id)!, one.player, one.measured, template.path),
  );
  const subjectsOf = (some: readonly FileUsage[]): readonly Subject[] =>
    template.instruments.map((one, i) =>
      subjectOf(input, one, some, calibrated[i]!.calibration, loadedCopies(files, one.id)),
    );
  const subjects = subjectsOf(files.map(withoutPrinted));
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
    printed: pricePrinted(files, () => subjectsOf(files), machines, total.zonesKept),
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
      ...calibrated.flatMap((one) => one.findings),
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

const subjectOf = (
  { template, instruments }: PlanInput,
  { id, machine, player, settle: own }: TemplateInstrument,
  files: readonly FileUsage[],
  calibration: Subject['calibration'],
  loaded: number,
): Subject => {
  const instrument = instruments.get(id)!;
  const settle: Settlements = { ...template.settle, ...own };
  const { headroom } = template;
  const byCopy = player.shares === 'copy';
  const excluded = settledAsPlain(settle);
  return {
    instrument,
    machine,
    player,
    calibration,
    settle,
    pins: template.pins.filter((pin) => pin.instrument === id),
    tally: tallyUsage(instrument, files, { excluded, headroom, byCopy }),
    loaded,
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

/** Tracks that are audio already need nothing. */
export const withoutPrinted = (file: FileUsage): FileUsage =>
  file.copies.some(({ printed }) => printed)
    ? { ...file, copies: file.copies.filter(({ printed }) => !printed) }
    : file;

/** Copies of an instrument that the cues drive, those of printed tracks included; at least 1. */
const loadedCopies = (files: readonly FileUsage[], instrument: string): number => {
  const names = files.flatMap(({ copies }) =>
    copies.filter((copy) => copy.instrument === instrument).map(({ copy }) => copy),
  );
  return Math.max(1, new Set(names).size);
};

const settingsOf = ({ template, reel }: PlanInput): PlanSettings => ({
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
