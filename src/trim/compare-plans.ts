import type { KeptZone, Plan, PlanInstrument } from '../keep/plan.ts';
import { finding, type Finding } from '../terms/finding.ts';
import type { Placed } from './place.ts';
import type { TrimSet } from './trim-set.ts';

/** What the score finds in the smaller instruments of what it finds in the full ones. */
export interface Comparison {
  /** Zones that notes reach in the full instruments, each found again with the same notes in each cue. */
  readonly zones: number;
  /** `trim-unmet`: a zone is not there, or not with its sound, or other notes reach it. */
  readonly unmet: readonly Finding[];
  /** `trim-more`: zones that a plan of the smaller set would let go. */
  readonly more: readonly Finding[];
}

/**
 * Holds a plan of the smaller instruments against one of the full ones.
 *
 * @param setOf what the full plan needs of one instrument, whatever its player can unload
 * @param cueOf the id of a cue in the smaller set: without a number a cue is named by its path, which is
 *   another there
 */
export const comparePlans = (
  full: Plan,
  small: Plan,
  placed: readonly Placed[],
  setOf: (instrument: string) => TrimSet,
  cueOf: (cue: string) => string,
): Comparison => {
  let zones = 0;
  const unmet: Finding[] = [];
  const more: Finding[] = [];
  for (const { definition, trimmed, path } of placed) {
    const places = new Set(trimmed.places);
    const idle = new Map<number, number>();
    for (const id of definition.instruments) {
      const before = instrumentOf(full, id);
      const after = instrumentOf(small, id);
      const lost = lostZone(before, after, trimmed.zones, setOf(id), cueOf);
      zones += before.kept.filter(isPlayed).length;
      if (lost !== null)
        unmet.push(finding('error', 'trim-unmet', path, { instrument: id, ...lost }));
      // One that only stops others may have nobody left to stop.
      const silent = new Set([...setOf(id).silent].map((zone) => trimmed.zones.get(zone)));
      for (const { zone } of after.dropped) {
        if (!places.has(zone) && !silent.has(zone)) idle.set(zone, (idle.get(zone) ?? 0) + 1);
      }
    }
    // What one of them lets go, another may need.
    const free = [...idle.values()].filter((count) => count === definition.instruments.length);
    if (free.length > 0) {
      const args = { instrument: definition.instruments[0]!, zones: free.length };
      more.push(finding('note', 'trim-more', path, args));
    }
  }
  return { zones, unmet, more };
};

const instrumentOf = ({ instruments }: Plan, id: string): PlanInstrument =>
  instruments.find((one) => one.id === id)!;

const isPlayed = ({ reasons }: KeptZone): boolean => reasons.includes('played');

/** The first zone that is not what it was. */
const lostZone = (
  { kept }: PlanInstrument,
  after: PlanInstrument,
  zones: ReadonlyMap<number, number>,
  { loaded, silent }: TrimSet,
  cueOf: (cue: string) => string,
): { readonly zone: number; readonly cue: string | null } | null => {
  const keptAfter = new Map(after.kept.map((one) => [one.zone, one]));
  const droppedAfter = new Map(after.dropped.map((one) => [one.zone, one]));
  for (const one of kept) {
    const { zone, bytes } = one;
    if (!loaded.has(zone) && !silent.has(zone)) continue;
    const id = zones.get(zone);
    const again = id === undefined ? undefined : (keptAfter.get(id) ?? droppedAfter.get(id));
    if (again === undefined || (loaded.has(zone) && again.bytes !== bytes)) {
      return { zone, cue: one.witnesses[0]?.cue ?? null };
    }
    if (!isPlayed(one)) continue;
    const found = keptAfter.get(id!);
    if (found === undefined || !isPlayed(found)) return { zone, cue: firstCue(one) };
    for (const [cue, notes] of Object.entries(one.cues)) {
      if (found.cues[cueOf(cue)] !== notes) return { zone, cue };
    }
    if (found.notes !== one.notes) return { zone, cue: firstCue(one) };
  }
  return null;
};

const firstCue = ({ cues }: KeptZone): string | null => Object.keys(cues)[0] ?? null;
