import { machineMemory } from '../../memory/machine-memory.ts';
import type { ZoneMask } from '../../memory/zone-mask.ts';
import type { FileUsage } from '../../playback/zone-usage.ts';
import { sharingGroups } from '../count-shared.ts';
import { loadedUnder, type Decision, type Subject } from '../decision.ts';
import { keptAmount } from '../kept-amount.ts';
import { loadedMask } from '../keep-set.ts';
import type { PlanRare, RareUnit } from '../plan.ts';
import { rareUnits, type RareCandidate } from './rare-units.ts';
import { keptBy, withoutStarts, type Holder } from './taken-away.ts';

/** A list to decide on, with what each entry frees. */
interface Rare {
  readonly unit: RareUnit;
  readonly subject: number;
  readonly candidate: RareCandidate;
}

/**
 * What a player can unload and few notes reach (design, section 9). A note reaches a unit when it
 * starts a zone as part of it. What lets no zone go is left out: others need them all, or a pin does.
 *
 * @param files in reel order, without printed tracks
 * @param fewerThan from 1 on
 */
export const planRare = (
  subjects: readonly Subject[],
  decisions: readonly Decision[],
  files: readonly FileUsage[],
  fewerThan: number,
): PlanRare => {
  const groupOf = new Map(
    sharingGroups(subjects).flatMap((group) => group.map((i) => [i, group] as const)),
  );
  /** What the instruments that hold their samples in common with one of them take. */
  const bytesWith = (subject: number, decision: Decision): number =>
    machineMemory(
      groupOf
        .get(subject)!
        .map((i) => loadedUnder(subjects[i]!, i === subject ? decision : decisions[i]!)),
    ).bytes;
  const rare = subjects.flatMap((subject, i) => {
    const decision = decisions[i]!;
    const candidates = rareUnits(subject, files, fewerThan);
    const now = candidates.length === 0 ? 0 : bytesWith(i, decision);
    return candidates.flatMap((candidate): readonly Rare[] => {
      const { holder, starts } = candidate;
      const without = withoutStarts(subject, decision, new Map([[holder, starts]]));
      const before = loadedMask(keptBy(decision, holder));
      const after = loadedMask(keptBy(without, holder));
      const unit = unitOf(
        subject,
        candidate,
        before,
        after,
        Math.max(0, now - bytesWith(i, without)),
      );
      return unit.zones.length === 0 ? [] : [{ unit, subject: i, candidate }];
    });
  });
  return {
    fewerThan,
    units: rare
      .map(({ unit, subject }) => ({ unit, subject }))
      .sort((a, b) => b.unit.bytes - a.unit.bytes || a.subject - b.subject)
      .map(({ unit }) => unit),
    bytes: togetherBytes(subjects, decisions, rare),
  };
};

const unitOf = (
  { instrument, machine, tally }: Subject,
  { holder, articulations, notes, cues, witnesses }: RareCandidate,
  before: ZoneMask,
  after: ZoneMask,
  bytes: number,
): RareUnit => {
  const samplesIn = (mask: ZoneMask): ReadonlySet<number> =>
    new Set(instrument.zones.flatMap(({ samples }, zone) => (mask[zone] === 1 ? samples : [])));
  const left = samplesIn(after);
  return {
    instrument: instrument.id,
    machine,
    copy: holder === null ? null : tally.copies[holder]!.name,
    articulations,
    zones: instrument.zones.flatMap(({ id }, zone) =>
      before[zone] === 1 && after[zone] !== 1 ? [id] : [],
    ),
    samples: [...samplesIn(before)].filter((sample) => !left.has(sample)).length,
    notes,
    cues,
    witnesses,
    bytes,
  };
};

/** What all of them free at once: more than one by one where they share samples. */
const togetherBytes = (
  subjects: readonly Subject[],
  decisions: readonly Decision[],
  rare: readonly Rare[],
): number => {
  if (rare.length === 0) return 0;
  const without = subjects.map((subject, i) => {
    const gone = new Map<Holder, Set<number>>();
    for (const { candidate, subject: of } of rare) {
      if (of !== i) continue;
      const starts = gone.get(candidate.holder) ?? new Set<number>();
      gone.set(candidate.holder, starts);
      for (const start of candidate.starts) starts.add(start);
    }
    return gone.size === 0 ? decisions[i]! : withoutStarts(subject, decisions[i]!, gone);
  });
  return Math.max(0, keptAmount(subjects, decisions).bytes - keptAmount(subjects, without).bytes);
};
