import type { Instrument } from '../../../../src/instruments/instrument.ts';
import type { WayOut } from '../../../../src/keep/check/check.ts';
import { waysOut } from '../../../../src/keep/check/ways/ways-out.ts';
import { reachedClasses, type ReachedClass } from '../../../../src/keep/reach.ts';
import type { FileUsage } from '../../../../src/playback/zone-usage.ts';
import type { DoubtSet } from '../../../../src/terms/doubt.ts';

/** What stays of an instrument, as sets of zone indices, alike in all copies. */
export interface Kept {
  /** Doubts settled as plain. */
  readonly excluded: DoubtSet;
  readonly loaded: ReadonlySet<number>;
  /** Stay without their samples, beside those. */
  readonly mutes: ReadonlySet<number>;
}

/** What a class asks for and does not find, zone by zone. */
export const missingOf = (
  { starts, silent }: ReachedClass,
  { excluded, loaded, mutes }: Kept,
): readonly number[] => {
  const isOpen = ({ doubts }: ReachedClass['starts'][number]): boolean =>
    doubts.some((set) => (set & excluded) === 0);
  const zones = (all: ReachedClass['starts']): readonly number[] =>
    all.filter(isOpen).map(({ start }) => start.zone);
  return [
    ...zones(starts).filter((zone) => !loaded.has(zone)),
    ...zones(silent).filter((zone) => !loaded.has(zone) && !mutes.has(zone)),
  ];
};

/** Zones that files ask for and do not find. */
export const missingZones = (
  instrument: Instrument,
  files: readonly FileUsage[],
  kept: Kept,
): ReadonlySet<number> =>
  new Set([...reachedClasses(instrument, files)].flatMap((one) => missingOf(one, kept)));

/** Note-ons that sound by the plain reading. */
export const soundingNotes = (instrument: Instrument, files: readonly FileUsage[]): number =>
  [...reachedClasses(instrument, files)]
    .filter(
      ({ class: one, starts }) =>
        one.event === 'note-on' && starts.some(({ doubts }) => doubts[0] === 0),
    )
    .reduce((sum, { class: one }) => sum + one.count, 0);

/** The ways out of some misses where all copies load alike. */
export const waysOf = (
  instrument: Instrument,
  files: readonly FileUsage[],
  kept: Kept,
  misses: readonly number[],
): readonly (readonly WayOut[])[] =>
  waysOut(
    {
      instrument,
      files,
      learned: [],
      excluded: kept.excluded,
      isLoaded: (_, zone) => kept.loaded.has(zone),
      isKept: (_, zone) => kept.loaded.has(zone) || kept.mutes.has(zone),
    },
    misses.map((zone) => ({ zone, copy: null, silent: false })),
  );

/** These zones stay with their samples, and no doubt is settled. */
export const keeping = (...zones: readonly number[]): Kept => ({
  excluded: 0,
  loaded: new Set(zones),
  mutes: new Set(),
});

/** All that files reach under doubts that are open. */
export const keptBy = (
  instrument: Instrument,
  files: readonly FileUsage[],
  excluded: DoubtSet,
): Kept => {
  const nothing = { excluded, loaded: new Set<number>(), mutes: new Set<number>() };
  const loaded = new Set<number>();
  const mutes = new Set<number>();
  for (const one of reachedClasses(instrument, files)) {
    for (const zone of missingOf({ ...one, silent: [] }, nothing)) loaded.add(zone);
    for (const zone of missingOf({ ...one, starts: [] }, nothing)) mutes.add(zone);
  }
  return { excluded, loaded, mutes };
};
