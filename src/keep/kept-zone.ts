import { namesOf, plain, type DoubtSet } from '../terms/doubt.ts';
import { why } from './keep-set.ts';
import type { KeptZone, Reason, Witness } from './plan.ts';
import type { Proof, Tally } from './tally.ts';
import { witnessOf } from './witness.ts';
import type { ZoneFacts } from './zone-facts.ts';

/** Why a zone stays: its reasons, the doubts behind them, and the notes that prove it. */
export const keptZone = (
  tally: Tally,
  zone: number,
  reason: number,
  excluded: DoubtSet,
): Omit<KeptZone, keyof ZoneFacts> => {
  const { zones, mutes } = tally.reach;
  const all = (reason === why.mutes ? mutes : zones)[zone]!;
  const sets = all.filter((set) => (set & excluded) === 0);
  const isPlayed = reason !== why.mutes && sets[0] === plain;
  const notes = isPlayed ? tally.plainNotes[zone] : tally.doubtfulNotes[zone];
  const doubts = namesOf(sets.reduce((all, set) => all | set, 0));
  const usage: readonly Reason[] = isPlayed ? ['played'] : doubts;
  const reasons = reason === why.usage ? usage : [added[reason]!];
  return {
    reasons,
    doubts: sets.map(namesOf),
    notes: notes?.count ?? 0,
    cues: notes === undefined || notes === null ? {} : Object.fromEntries(notes.byCue),
    witnesses: notes?.proofs.map(witness) ?? [],
  };
};

/** The reasons beside usage, by their number in {@link why}. */
const added: Readonly<Record<number, Reason>> = {
  [why.linked]: 'linked',
  [why.pinned]: 'pinned',
  [why.headroom]: 'headroom',
  [why.grain]: 'grain',
  [why.mutes]: 'mutes',
};

const witness = ({ file, place, key, velocity }: Proof): Witness =>
  witnessOf(file, place, key, velocity);
