import type { PlanCopy, PlanInstrument } from '../plan.ts';

/** The zones that one copy has loaded, or all copies alike. */
export interface CopyZones {
  /** Null: all copies alike, or the one that stays although no cue drives any. */
  readonly name: string | null;
  /** How many copies have them loaded. */
  readonly count: number;
  /** By the number that the source knows them by. */
  readonly zones: ReadonlySet<number>;
}

/** Zones that stay with their samples in any copy. */
const loadedZones = ({ kept }: PlanInstrument): ReadonlySet<number> =>
  new Set(kept.flatMap(({ zone, reasons }) => (reasons.includes('mutes') ? [] : [zone])));

const ownZones = (
  { kept, muted }: Pick<PlanCopy, 'kept' | 'muted'>,
  all: ReadonlySet<number>,
): ReadonlySet<number> => {
  const silent = new Set(muted);
  return new Set((kept ?? []).filter((zone) => all.has(zone) && !silent.has(zone)));
};

/**
 * What a keep file has loaded of an instrument. Players that share load the same zones in every copy
 * that gets notes, and in one where none does.
 *
 * @param isApart by copies in any case, as the other file has it
 */
export const loadedCopies = (
  instrument: PlanInstrument,
  isApart: boolean,
): readonly CopyZones[] => {
  const zones = loadedZones(instrument);
  const { copies, shares } = instrument;
  if (shares === 'copy' && copies.length > 0) {
    return copies.map((copy) => ({ name: copy.name, count: 1, zones: ownZones(copy, zones) }));
  }
  const playing = copies.filter(({ zonesKept }) => zonesKept > 0);
  return isApart && playing.length > 0
    ? playing.map(({ name }) => ({ name, count: 1, zones }))
    : [{ name: null, count: Math.max(1, playing.length), zones }];
};

/** Names of the copies that are loaded. */
export const loadedNames = (instrument: PlanInstrument): readonly string[] =>
  loadedZones(instrument).size === 0
    ? []
    : loadedCopies(instrument, true).flatMap(({ name, zones }) =>
        name === null || zones.size === 0 ? [] : [name],
      );
