import { finding, type Finding } from '../../terms/finding.ts';
import type { Plan, PlanMachine } from '../plan.ts';
import type { AtHand } from './at-hand.ts';
import {
  isEmpty,
  isUnchanged,
  onMachine,
  pairInstruments,
  type InstrumentPair,
} from './copy-pairs.ts';
import { amountsOf, diffInstrument } from './diff-instrument.ts';
import type { Amount, Diff, DiffAmounts, DiffFile, DiffMachine } from './diff.ts';
import { sharing, stayingOf, stayingOn, type Staying } from './staying-bytes.ts';

/** A keep file with its name and digest. */
export interface KeepFile {
  readonly path: string;
  readonly sha256: string;
  readonly plan: Plan;
}

/** Why an instrument is not at hand. */
export type Absence = 'no-template' | 'template' | 'unlisted' | 'unreadable';

/** The instruments that were looked for. */
export interface LookedFor {
  readonly atHand: ReadonlyMap<string, AtHand>;
  /** By the id of an instrument that is not at hand. */
  readonly absent: ReadonlyMap<string, Absence>;
}

const byId = <T extends { readonly id: string }>(items: readonly T[], id: string): T | null =>
  items.find((one) => one.id === id) ?? null;

const idsOf = (
  from: readonly { readonly id: string }[],
  to: readonly { readonly id: string }[],
): readonly string[] => [...new Set([...to, ...from].map(({ id }) => id))];

const pairsOf = (from: Plan, to: Plan): readonly InstrumentPair[] =>
  idsOf(from.instruments, to.instruments).map((id) =>
    pairInstruments(id, byId(from.instruments, id), byId(to.instruments, id)),
  );

const pairsOn = (pairs: readonly InstrumentPair[], machine: string): readonly InstrumentPair[] =>
  pairs.flatMap((pair) => onMachine(pair, machine) ?? []);

/**
 * Ids of the instruments that have to be looked at to tell what lies between two keep files: those
 * of which something is to be loaded or unloaded, and those that share samples beside them.
 */
export const instrumentsToLookAt = (from: Plan, to: Plan): readonly string[] => {
  const pairs = pairsOf(from, to);
  const needed = new Set(pairs.filter((pair) => !isUnchanged(pair)).map(({ id }) => id));
  for (const id of idsOf(from.machines, to.machines)) {
    const own = pairsOn(pairs, id);
    if (!own.every(isUnchanged)) for (const one of sharing(own)) needed.add(one.id);
  }
  return pairs.map(({ id }) => id).filter((id) => needed.has(id));
};

/** What lies between two keep files: what to load and what to unload to go from the first to the second. */
export const makeDiff = (from: KeepFile, to: KeepFile, lookedFor: LookedFor): Diff => {
  const { atHand } = lookedFor;
  const pairs = pairsOf(from.plan, to.plan);
  const staying = pairs.map((pair) => stayingOf(pair, atHand));
  const machines = idsOf(from.plan.machines, to.plan.machines).map((id) => {
    const before = byId(from.plan.machines, id);
    const after = byId(to.plan.machines, id);
    const own = pairsOn(pairs, id);
    const kept = { from: before?.bytes.kept ?? 0, to: after?.bytes.kept ?? 0 };
    const bytes = stayingOn(own, kept, atHand);
    return { bytes, own, machine: diffMachine(before, after, amountsOf(own, bytes, kept)) };
  });
  const isKnown = (id: string): boolean =>
    typeof staying[pairs.findIndex((pair) => pair.id === id)] === 'number';
  /** Machines whose figure is missing although that of each of their instruments is there. */
  const unexplained = machines
    .filter(({ own }) => own.every(({ id }) => isKnown(id)))
    .map(({ bytes, own }) => ({ bytes, pairs: own.filter((pair) => !isEmpty(pair, 'both')) }));
  return {
    schema: 'keepset/diff@1',
    from: fileOf(from),
    to: fileOf(to),
    instruments: pairs.map((pair, i) => diffInstrument(pair, staying[i]!, atHand)),
    machines: machines.map(({ machine }) => machine),
    total: totalOf(machines.map(({ machine }) => machine)),
    findings: [
      ...templatesDiffer(from, to),
      ...withoutBytes(
        [...pairs.map((pair, i) => ({ bytes: staying[i]!, pairs: [pair] })), ...unexplained],
        lookedFor,
      ),
    ],
  };
};

const fileOf = ({ path, sha256, plan }: KeepFile): DiffFile => ({
  path,
  sha256,
  cues: plan.cues.map(({ id }) => id),
});

const diffMachine = (
  from: PlanMachine | null,
  to: PlanMachine | null,
  amounts: DiffAmounts,
): DiffMachine => ({
  id: (to ?? from)!.id,
  budget: (to ?? from)!.budget,
  kept: { from: from?.bytes.kept ?? 0, to: to?.bytes.kept ?? 0 },
  low: to?.bytes.low ?? 0,
  high: to?.bytes.high ?? 0,
  fits: to?.fits ?? null,
  ...amounts,
});

const totalOf = (machines: readonly DiffAmounts[]): DiffAmounts => {
  const sum = (amounts: readonly Amount[]): Amount =>
    amounts.reduce(
      (a, b) => ({
        zones: a.zones + b.zones,
        samples: a.samples + b.samples,
        bytes: a.bytes === null || b.bytes === null ? null : a.bytes + b.bytes,
      }),
      { zones: 0, samples: 0, bytes: 0 },
    );
  return {
    load: sum(machines.map(({ load }) => load)),
    unload: sum(machines.map(({ unload }) => unload)),
    unchanged: sum(machines.map(({ unchanged }) => unchanged)),
  };
};

const templatesDiffer = (from: KeepFile, to: KeepFile): readonly Finding[] =>
  from.plan.template?.sha256 === to.plan.template?.sha256
    ? []
    : [finding('note', 'diff-templates-differ', null, { from: from.path, to: to.path })];

/** What could not be told in bytes, once for each reason. */
const withoutBytes = (
  figures: readonly { readonly bytes: Staying; readonly pairs: readonly InstrumentPair[] }[],
  { atHand, absent }: LookedFor,
): readonly Finding[] => {
  const reasons = new Map<string, Set<string>>();
  const add = (reason: string, id: string): void => {
    const ids = reasons.get(reason) ?? new Set();
    reasons.set(reason, ids.add(id));
  };
  for (const { bytes, pairs } of figures) {
    if (typeof bytes === 'number') continue;
    for (const pair of pairs) {
      if (bytes === 'absent') {
        const reason = absent.get(pair.id);
        if (reason !== undefined) add(reason, pair.id);
      } else if (bytes === 'figures' || isOther(pair, atHand)) add(bytes, pair.id);
    }
  }
  return [...reasons].map(([reason, ids]) =>
    finding('warning', 'diff-without-bytes', null, { reason, instruments: [...ids] }),
  );
};

/** The instrument at hand is none of those that the files speak of. */
const isOther = ({ id, from, to }: InstrumentPair, atHand: LookedFor['atHand']): boolean => {
  const sha256 = atHand.get(id)?.instrument.sha256;
  return sha256 !== undefined && (sha256 !== from?.sha256 || sha256 !== to?.sha256);
};
