import { figureSum } from '../../memory/figure.ts';
import { memoryOf } from '../../memory/loaded-memory.ts';
import { machineMemory } from '../../memory/machine-memory.ts';
import { ReelLoads, type State } from '../../memory/reel/reel-loads.ts';
import { finding, type Finding } from '../../terms/finding.ts';
import { fullyLoaded, type Subject } from '../decision.ts';
import { settingsOf, type PlanInput } from '../make-plan.ts';
import { planCues } from '../plan-cues.ts';
import type { DoubtName } from '../../terms/doubt.ts';
import { namesOf } from '../../terms/doubt.ts';
import { occurringDoubts } from '../prices.ts';
import { subjectsOf, withoutPrinted } from '../subjects.ts';
import { cueNeeds } from './cue-needs.ts';
import { cueStates, machineStates } from './cue-memory.ts';
import { groupCues } from './group-cues.ts';
import type { ReelMachine, ReelMemory, ReelMemorySettings } from './reel-memory.ts';
import { waysToFit } from './ways-to-fit.ts';

/** All that decides what a reel needs in memory. */
export interface ReelMemoryInput {
  readonly plan: PlanInput;
  readonly keep: { readonly sha256: string } | null;
  /** Ids of cues in the order they are loaded in, all of them; null: the order of the reel. */
  readonly order: readonly string[] | null;
  /** Budgets that are tried in place of the template's, by machine. */
  readonly budgets: Readonly<Record<string, number>>;
  readonly inGroups: boolean;
  readonly findings: readonly Finding[];
}

/** A reel's memory, and what further questions about it go on from. */
export interface MadeReelMemory {
  readonly memory: ReelMemory;
  readonly subjects: readonly Subject[];
  readonly loads: ReelLoads;
  /** All cues at once. */
  readonly whole: State;
}

/** What the cues of a reel need in memory: one by one, together, and in groups. */
export const makeReelMemory = (input: ReelMemoryInput): MadeReelMemory => {
  const { plan: planned, order, budgets, inGroups } = input;
  const template = {
    ...planned.template,
    machines: planned.template.machines.map((machine) => ({
      ...machine,
      budget: Object.hasOwn(budgets, machine.id) ? budgets[machine.id]! : machine.budget,
    })),
  };
  const { subjects, findings: calibrating } = subjectsOf({ ...planned, template });
  const files = planned.files.map(withoutPrinted);
  const inReel = planCues(files);
  const cues = order === null ? inReel : order.map((id) => inReel.find((cue) => cue.id === id)!);
  const filesOf = cues.map(({ id }) => files.filter(({ cue }) => cue === id));
  const { machines } = template;
  const loads = new ReelLoads(
    subjects.map((subject) => ({
      instrument: subject.instrument,
      player: subject.player,
      calibration: subject.calibration,
      machine: machines.findIndex(({ id }) => id === subject.machine),
      needs: cueNeeds(subject, filesOf, files, template.headroom),
    })),
    cues.length,
  );
  const states = cues.map((_, cue) => loads.cue(cue));
  const whole = states.reduce((all, state) => loads.join(all, state), loads.nothing);
  const cueMemories = cueStates(loads, machines, cues, states);
  const reelMachines = machines.map((machine, m): ReelMachine => {
    const { figure, fits } = machineStates(loads, machine, m, whole);
    const over = fits === false ? figure.high - machine.budget! : 0;
    const own = subjects.filter((subject) => subject.machine === machine.id);
    return {
      id: machine.id,
      budget: machine.budget,
      full: machineMemory(own.map(fullyLoaded)).bytes,
      ...figure,
      peak: highest(
        cueMemories,
        (cue) => cue.machines[m]!.bytes,
        (cue) => {
          const { bytes, low, high } = cue.machines[m]!;
          return { cue: cue.id, bytes, low, high };
        },
      ),
      fits,
      over,
      largest: fits === false && !inGroups ? largestOn(loads, m, whole) : [],
      // A group is judged by its cues: what would make room for the reel is another question then.
      ways:
        fits === false && !inGroups
          ? waysToFit(
              subjects,
              { ...machine, budget: machine.budget! },
              machines,
              openDoubts(subjects),
              writable(planned),
            )
          : [],
    };
  });
  const reelFits = reelMachines.every(({ fits }) => fits !== false);
  const groups = inGroups || !reelFits ? groupCues(loads, machines, cues, states) : null;
  const total = figureSum(reelMachines);
  const memory: ReelMemory = {
    schema: 'keepset/memory@1',
    settings: settingsFrom(input),
    template: template.sha256 === null ? null : { sha256: template.sha256 },
    keep: input.keep,
    cues: cueMemories,
    instruments: subjects.map((subject, i) => {
      const { instrument, machine, player } = subject;
      const { bytes, low, high, basis } = loads.instrument(i, whole);
      const own = states.map((state) => loads.instrument(i, state).bytes);
      return {
        ...{ id: instrument.id, source: instrument.source, machine, player: player.id },
        ...{ unloads: player.unloads, bytes, low, high, basis },
        full: memoryOf(fullyLoaded(subject)).bytes,
        peak: own.reduce((most, one) => Math.max(most, one), 0),
        cues: own.filter((one) => one > 0).length,
      };
    }),
    machines: reelMachines,
    total: {
      ...total,
      full: reelMachines.reduce((sum, { full }) => sum + full, 0),
      peak: highest(
        cueMemories,
        ({ bytes }) => bytes,
        ({ id, bytes }) => ({ cue: id, bytes }),
      ),
    },
    groups,
    cue: null,
    placement: null,
    comparison: null,
    findings: [
      ...template.findings,
      ...[...planned.instruments.values()].flatMap((instrument) => instrument.findings),
      ...calibrating,
      ...planned.findings,
      ...input.findings,
      ...budgetFindings(reelMachines, groups, inGroups),
      ...rateFindings(groups, subjects, template.path),
    ],
  };
  return { memory, subjects, loads, whole };
};

/** Whether everything that has to be loaded at one time fits: the reel, or each group. */
export const fitsBudgets = ({ settings, machines, groups }: ReelMemory): boolean =>
  settings.inGroups && groups !== null
    ? groups.alone.length === 0
    : machines.every(({ fits }) => fits !== false);

const settingsFrom = ({ plan, order, budgets, inGroups }: ReelMemoryInput): ReelMemorySettings => ({
  ...settingsOf(plan),
  order,
  budgets,
  inGroups,
});

/** The first of those that are the highest. */
const highest = <Item, Told>(
  items: readonly Item[],
  by: (item: Item) => number,
  tell: (item: Item) => Told,
): Told | null => {
  const [first, ...others] = items;
  if (first === undefined) return null;
  return tell(others.reduce((best, one) => (by(one) > by(best) ? one : best), first));
};

/** How many instruments are named as the largest. */
const mostNamed = 5;

const largestOn = (loads: ReelLoads, machine: number, whole: State): ReelMachine['largest'] =>
  loads.members
    .flatMap((member, m) =>
      member.machine === machine
        ? [{ instrument: member.instrument.id, bytes: loads.instrument(m, whole).bytes }]
        : [],
    )
    .filter(({ bytes }) => bytes > 0)
    .sort((a, b) => b.bytes - a.bytes)
    .slice(0, mostNamed);

const openDoubts = (subjects: readonly Subject[]): readonly DoubtName[] =>
  namesOf(subjects.reduce((all, subject) => all | occurringDoubts(subject), 0));

/** Zone tables and outlines say nothing of files that could be written. */
const writable = ({ template }: PlanInput): ReadonlySet<string> =>
  new Set(
    template.instruments.flatMap(({ id, source }) =>
      source.kind === 'zone-table' || source.kind === 'outline' ? [] : [id],
    ),
  );

const budgetFindings = (
  machines: readonly ReelMachine[],
  groups: ReelMemory['groups'],
  inGroups: boolean,
): readonly Finding[] => {
  const alone = groups?.alone ?? [];
  const whole = machines.flatMap(({ id, high, budget, fits }) =>
    // Where not even a cue fits, groups are no advice, and that is told below.
    fits === false && budget !== null && !inGroups && !alone.some(({ machine }) => machine === id)
      ? [finding('warning', 'memory-over-budget', null, { machine: id, high, budget })]
      : [],
  );
  const single = machines.flatMap(({ id: machine, budget }): readonly Finding[] => {
    const here = alone.filter((one) => one.machine === machine);
    if (here.length === 0) return [];
    const most = here.reduce((worst, { missing }) => Math.max(worst, missing), 0);
    const cues = here.map(({ cue }) => cue);
    const args = { cues, machine, high: budget! + most, budget: budget! };
    return [finding('warning', 'memory-cue-alone', null, args)];
  });
  return [...whole, ...single];
};

const rateFindings = (
  groups: ReelMemory['groups'],
  subjects: readonly Subject[],
  file: string | null,
): readonly Finding[] => {
  if (groups?.seconds !== null) return [];
  const players = subjects.flatMap(({ player }) => (player.loadRate === null ? [player.id] : []));
  return [finding('note', 'memory-no-load-rate', file, { players: [...new Set(players)] })];
};
