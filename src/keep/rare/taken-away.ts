import { plain, type DoubtSet } from '../../terms/doubt.ts';
import { isLoaded, settledAsPlain, type Decision, type Subject } from '../decision.ts';
import { holdsWithout, type DoubtSets } from '../doubt-sets.ts';
import { keepSet, type KeepSet } from '../keep-set.ts';
import type { Reach } from '../open-reach.ts';

/** Where something is let go: all copies load the same (null), or one of them, by its place. */
export type Holder = number | null;

/** What a holder keeps. */
export const keptBy = ({ whole, copies }: Decision, holder: Holder): KeepSet =>
  holder === null ? whole : copies![holder]!;

/** A decision as it would be if some starts were never reached. @param gone per holder the starts */
export const withoutStarts = (
  subject: Subject,
  decision: Decision,
  gone: ReadonlyMap<Holder, ReadonlySet<number>>,
): Decision => {
  const { instrument, player, pins, tally, settle } = subject;
  const excluded = settledAsPlain(settle);
  const left = (reach: Reach, starts: ReadonlySet<number>, isPinned: boolean): KeepSet =>
    keepSet(instrument, reachWithout(subject, reach, starts, excluded), {
      excluded,
      grain: player.unloads,
      pins: isPinned ? pins : [],
    });
  const ofAll = gone.get(null);
  if (ofAll !== undefined) return { ...decision, whole: left(tally.reach, ofAll, true) };
  return {
    ...decision,
    copies: decision.copies!.map((kept, i) => {
      const starts = gone.get(i);
      const copy = tally.copies[i];
      if (starts === undefined || copy === undefined) return kept;
      return left(copy.reach!, starts, isLoaded(copy));
    }),
  };
};

const never: DoubtSets = [];
const reached: DoubtSets = [plain];

const reachWithout = (
  { instrument: { zones, program } }: Subject,
  { mutes, starts, widened }: Reach,
  gone: ReadonlySet<number>,
  excluded: DoubtSet,
): Reach => {
  const left = starts.map((sets, i) => (gone.has(i) ? never : sets));
  const ofZone = zones.map(() => never);
  left.forEach((sets, i) => {
    if (holdsWithout(sets, excluded)) ofZone[program.starts[i]!.zone] = reached;
  });
  return {
    zones: ofZone,
    mutes,
    starts: left,
    widened: widened.map((sets, i) => (gone.has(i) ? never : sets)),
  };
};
