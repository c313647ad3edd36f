import type { Instrument } from '../../instruments/instrument.ts';
import type { Figure } from '../../memory/figure.ts';
import type { FileUsage } from '../../playback/zone-usage.ts';
import { doubtNames } from '../../terms/doubt.ts';
import { finding, type Finding } from '../../terms/finding.ts';
import { isOneDefinition } from '../keep-file/one-definition.ts';
import { withoutPrinted } from '../subjects.ts';
import { planCues } from '../plan-cues.ts';
import type { Plan } from '../plan.ts';
import type { Check, CheckedInstrument, CheckMachine, Miss, Proof } from './check.ts';
import type { CheckInput } from './check-input.ts';
import { checkedReel, missingFiles, type CheckedReel } from './checked-cues.ts';
import { compareInstrument, type Compared } from './compare-instrument.ts';
import { describeMiss } from './describe-miss.ts';
import { standsAgainstProof } from './proof.ts';
import { loadOf, MachineReload } from './reload.ts';

/** Holds what cues need against what a keep file leaves loaded. */
export const makeCheck = (input: CheckInput): Check => {
  const { keep, template, instruments, findings } = input;
  const { plan } = keep;
  const files = input.files.map(withoutPrinted);
  const cuesNow = planCues(input.files);
  const reel = checkedReel(plan.cues, cuesNow);
  const compared: Compared[] = [];
  const states: CheckedInstrument[] = [];
  for (const one of template.instruments) {
    const instrument = instruments.get(one.id)!;
    const state = stateOf(instrument, plan);
    states.push({ id: one.id, sha256: instrument.sha256, state });
    if (state === 'same') compared.push(compareInstrument(input, one, instrument, files, reel));
  }
  const machines = plan.machines.map(({ id, budget }): Machine => {
    const own = compared.filter(({ machine }) => machine === id);
    const apart = plan.instruments.filter(
      ({ id: name, machine }) =>
        machine === id && !own.some(({ instrument }) => instrument.id === name),
    );
    const limit = template.instruments.some(
      (one) => one.machine === id && !plan.instruments.some((planned) => planned.id === one.id),
    )
      ? null
      : budget;
    return { id, budget, limit, memory: new MachineReload(own, limit, bytesOf(apart)) };
  });
  const misses = compared.flatMap((one) => {
    const { memory } = machines.find(({ id }) => id === one.machine)!;
    return describe(one, files, memory);
  });
  const own = [
    ...missingFiles(plan.cues, cuesNow),
    ...changedPrints(input.files, reel.changed),
    ...changedFindings(input, states, files),
    ...compared.flatMap(({ findings: some }) => some),
  ];
  const all = [...findings, ...own];
  const stands = (one: Finding): boolean =>
    standsAgainstProof(one) || (one.code === 'cue-without-notes' && isOf(one, reel));
  const open = [...new Set(all.filter(stands).map(({ code }) => code))];
  return {
    schema: 'keepset/check@1',
    verdict: misses.length > 0 ? 'missing' : open.length > 0 ? 'not-proved' : 'proved',
    keep: { path: keep.path, sha256: keep.sha256 },
    loaded: input.loaded,
    proof: proofOf(input, reel, states),
    open,
    misses,
    machines: machines.map(checkMachine),
    total: {
      misses: misses.length,
      notes: compared.reduce((sum, { notes }) => sum + notes, 0),
      doubtfulNotes: compared.reduce((sum, one) => sum + one.doubtfulNotes, 0),
      bytes: machines.reduce(
        (sum, { memory: { kept, reloaded } }) => sum + Math.max(0, reloaded.bytes - kept.bytes),
        0,
      ),
    },
    findings: all,
  };
};

/** A machine of the keep file; `limit` is null where nobody knows what it has to hold. */
interface Machine {
  readonly id: string;
  readonly budget: number | null;
  readonly limit: number | null;
  readonly memory: MachineReload;
}

/** What can't be compared takes what the keep file says. */
const bytesOf = (instruments: Plan['instruments']): Figure => {
  const sum = (of: (bytes: Plan['instruments'][number]['bytes']) => number): number =>
    instruments.reduce((total, { bytes }) => total + of(bytes), 0);
  return {
    bytes: sum(({ kept }) => kept),
    low: sum(({ low }) => low),
    high: sum(({ high }) => high),
  };
};

const stateOf = (instrument: Instrument, plan: Plan): CheckedInstrument['state'] => {
  const planned = plan.instruments.find(({ id }) => id === instrument.id);
  if (planned === undefined) return 'added';
  return isOneDefinition(planned, instrument) ? 'same' : 'changed';
};

const describe = (
  one: Compared,
  files: readonly FileUsage[],
  memory: MachineReload,
): readonly Miss[] => {
  const units = new Map<string, number>();
  return one.misses.map((miss, i) => {
    const unit = `${miss.copy ?? ''} ${loadOf(one, miss)}`;
    if (!units.has(unit)) units.set(unit, units.size);
    const { instrument, copy, ...rest } = describeMiss(one.instrument, one.player, miss, files);
    return {
      instrument,
      machine: one.machine,
      copy,
      ...rest,
      unit: units.get(unit)!,
      ...memory.of(one, miss),
      ways: one.ways[i]!,
    };
  });
};

/** True for a finding about a file of a cue that is not what was planned. */
const isOf = ({ file }: Finding, { cues }: CheckedReel): boolean =>
  cues.some(({ files, change }) => change !== 'same' && files.some(({ path }) => path === file));

/** Cues that have changed and drive copies whose sound is audio already. */
const changedPrints = (
  files: readonly FileUsage[],
  changed: ReadonlySet<string>,
): readonly Finding[] =>
  files.flatMap(({ cue, path, copies }): readonly Finding[] => {
    const printed = copies.filter((copy) => copy.printed && copy.notes > 0);
    if (printed.length === 0 || !changed.has(cue)) return [];
    const instruments = [...new Set(printed.map(({ instrument }) => instrument))];
    return [finding('warning', 'check-print-changed', path, { cue, instruments })];
  });

/** The template and its instruments against those of the keep file. */
const changedFindings = (
  { keep: { plan }, template, instruments }: CheckInput,
  states: readonly CheckedInstrument[],
  files: readonly FileUsage[],
): readonly Finding[] => {
  const isPlayed = (id: string): boolean =>
    files.some(({ copies }) => copies.some((copy) => copy.instrument === id && copy.notes > 0));
  const changed =
    template.sha256 === (plan.template?.sha256 ?? null)
      ? []
      : [finding('warning', 'check-template-changed', template.path, {})];
  return [
    ...changed,
    ...states.flatMap(({ id, state }): readonly Finding[] => {
      const { source } = instruments.get(id)!;
      if (state === 'changed') {
        return [finding('warning', 'check-instrument-changed', source, { instrument: id })];
      }
      if (state === 'same' || !isPlayed(id)) return [];
      return [finding('warning', 'check-instrument-added', source, { instrument: id })];
    }),
  ];
};

const proofOf = (
  { keep: { plan }, template, accepted, leftOut }: CheckInput,
  { cues, absent }: ReturnType<typeof checkedReel>,
  instruments: readonly CheckedInstrument[],
): Proof => {
  const settled = doubtNames.flatMap((doubt) =>
    (['plain', 'accept'] as const).flatMap((answer) => {
      const ids = plan.instruments.filter(({ settle }) => settle[doubt] === answer);
      return ids.length === 0 ? [] : [{ doubt, answer, instruments: ids.map(({ id }) => id) }];
    }),
  );
  return {
    cues,
    absent: [...absent],
    leftOut,
    accepted: accepted.filter((id) => cues.some((cue) => cue.id === id)),
    notes: cues.reduce((sum, { notes }) => sum + notes, 0),
    instruments,
    template:
      template.sha256 === null && plan.template === null
        ? 'none'
        : template.sha256 === plan.template?.sha256
          ? 'same'
          : 'changed',
    settled,
  };
};

const checkMachine = ({
  id,
  budget,
  limit,
  memory: { kept, reloaded },
}: Machine): CheckMachine => ({
  id,
  budget,
  bytes: {
    kept: kept.bytes,
    reloaded: reloaded.bytes,
    low: reloaded.low,
    high: reloaded.high,
  },
  fits: limit === null ? null : reloaded.high <= limit,
});
