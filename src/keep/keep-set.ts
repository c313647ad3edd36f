import { findArticulation } from '../instruments/find-articulation.ts';
import { everyArticulation, type Instrument } from '../instruments/instrument.ts';
import type { Start } from '../instruments/program.ts';
import type { ZoneMask } from '../memory/zone-mask.ts';
import type { Grain } from '../template/player.ts';
import type { Pin } from '../template/template.ts';
import type { DoubtSet } from '../terms/doubt.ts';
import { holdsWithout } from './doubt-sets.ts';
import type { Reach } from './open-reach.ts';
import { unitsOf } from './units.ts';

/**
 * Why a zone stays, the first that applies (design, section 6). What only has to stop others comes
 * last: it stays without its samples, and every other reason needs those.
 */
export const why = {
  dropped: 0,
  usage: 1,
  linked: 2,
  pinned: 3,
  headroom: 4,
  grain: 5,
  mutes: 6,
} as const;

/** What stays loaded of an instrument, in one copy or in all. */
export interface KeepSet {
  /** Per zone one of {@link why}. */
  readonly why: Uint8Array;
  /** Per start, whether it is a way in which something stays. */
  readonly starts: Uint8Array;
}

export interface KeepRules {
  /** Doubts answered as the plain reading. */
  readonly excluded: DoubtSet;
  readonly grain: Grain;
  readonly pins: readonly Pin[];
}

/** What stays of an instrument: what usage reaches, what rules add, and whole units of the player. */
export const keepSet = (
  instrument: Instrument,
  reach: Reach,
  { excluded, grain, pins }: KeepRules,
): KeepSet => {
  const { zones, program } = instrument;
  const reasons = new Uint8Array(zones.length);
  const starts = new Uint8Array(program.starts.length);
  reach.zones.forEach((sets, zone) => {
    if (holdsWithout(sets, excluded)) reasons[zone] = why.usage;
  });
  const pinned = pinnedStarts(instrument, pins);
  program.starts.forEach(({ zone }, i) => {
    const isUsed = holdsWithout(reach.starts[i]!, excluded);
    const hasRoom = holdsWithout(reach.widened[i]!, excluded);
    if (isUsed || hasRoom || pinned[i] === 1) starts[i] = 1;
    if (reasons[zone] === why.usage) return;
    if (pinned[i] === 1) reasons[zone] = why.pinned;
    else if (hasRoom && reasons[zone] === why.dropped) reasons[zone] = why.headroom;
  });
  const partners = partnersOf(instrument);
  do {
    keepPartners(instrument, partners, reasons, starts);
  } while (keepUnits(instrument, grain, reasons, starts));
  reach.mutes.forEach((sets, zone) => {
    if (reasons[zone] === why.dropped && holdsWithout(sets, excluded)) reasons[zone] = why.mutes;
  });
  program.starts.forEach(({ zone, silent }, i) => {
    if (silent === true && reasons[zone] === why.mutes) starts[i] = 1;
  });
  return { why: reasons, starts };
};

/** Zones that stay, whatever the reason. */
export const keptMask = ({ why: reasons }: KeepSet): ZoneMask =>
  reasons.map((reason) => Number(reason !== why.dropped));

/** Zones whose samples stay loaded. */
export const loadedMask = ({ why: reasons }: KeepSet): ZoneMask =>
  reasons.map((reason) => Number(reason !== why.dropped && reason !== why.mutes));

/** Zones that usage keeps: what the score reaches before any rule adds to it. */
export const reachedMask = ({ why: reasons }: KeepSet): ZoneMask =>
  reasons.map((reason) => Number(reason === why.usage));

const pinnedStarts = (instrument: Instrument, pins: readonly Pin[]): Uint8Array => {
  const { program } = instrument;
  const pinned = new Uint8Array(program.starts.length);
  const isCommon = ({ articulation }: Start): boolean =>
    instrument.articulations[articulation]!.name === everyArticulation;
  for (const { articulation, keys, velocities } of pins) {
    const wanted =
      articulation === null
        ? null
        : findArticulation(instrument.articulations, articulation).indices;
    if (wanted?.length === 0) continue;
    program.starts.forEach((start: Start, i) => {
      if (wanted?.includes(start.articulation) === false && !isCommon(start)) return;
      if (keys !== null && (start.keys[0] > keys[1] || start.keys[1] < keys[0])) return;
      const [lo, hi] = start.velocities;
      if (velocities === null || (lo <= velocities[1] && hi >= velocities[0])) pinned[i] = 1;
    });
  }
  return pinned;
};

const partners = new WeakMap<Instrument, ReadonlyMap<number, readonly number[]>>();

/**
 * By zone the zones of its samples' other stereo halves: "played entirely synchronously" with their
 * partner, so a player that honours links needs them although no note reaches them (SoundFont 2.04,
 * section 7.10: both in the same instrument).
 */
export const partnersOf = (instrument: Instrument): ReadonlyMap<number, readonly number[]> => {
  const found = partners.get(instrument);
  if (found !== undefined) return found;
  const { zones, samples } = instrument;
  const zonesOf = new Map<string, number[]>();
  const place = (group: number, sample: number): string => `${String(group)} ${String(sample)}`;
  zones.forEach(({ group, samples: own }, zone) => {
    for (const sample of own) {
      if (samples[sample]!.partner === null) continue;
      const list = zonesOf.get(place(group, sample));
      if (list === undefined) zonesOf.set(place(group, sample), [zone]);
      else list.push(zone);
    }
  });
  const made = new Map<number, readonly number[]>();
  zones.forEach(({ group, samples: own }, zone) => {
    const others = own.flatMap((sample) => {
      const { partner } = samples[sample]!;
      return partner === null ? [] : (zonesOf.get(place(group, partner)) ?? []);
    });
    if (others.length > 0) made.set(zone, others);
  });
  partners.set(instrument, made);
  return made;
};

/** The other half of what stays, stays too, in the articulations where something stays. */
const keepPartners = (
  { program }: Instrument,
  halves: ReadonlyMap<number, readonly number[]>,
  reasons: Uint8Array,
  starts: Uint8Array,
): void => {
  if (halves.size === 0) return;
  for (const [zone, others] of halves) {
    if (reasons[zone] === why.dropped) continue;
    for (const other of others) {
      const isNew = reasons[other] === why.dropped;
      if (isNew || (reasons[zone] === why.usage && reasons[other] !== why.usage)) {
        reasons[other] = why.linked;
      }
    }
  }
  const live = new Set<number>();
  program.starts.forEach(({ articulation }, i) => {
    if (starts[i] === 1) live.add(articulation);
  });
  program.starts.forEach(({ zone, articulation }, i) => {
    if (reasons[zone] === why.linked && live.has(articulation)) starts[i] = 1;
  });
};

/** Adds what the player can't unload by itself; returns true when that was anything. */
const keepUnits = (
  instrument: Instrument,
  grain: Grain,
  reasons: Uint8Array,
  starts: Uint8Array,
): boolean => {
  if (grain === 'sample') return false;
  const { ofStart, zones } = unitsOf(instrument, grain);
  const kept = new Set<number>();
  ofStart.forEach((unit, i) => {
    if (starts[i] === 1) kept.add(unit);
  });
  let added = false;
  for (const unit of kept) {
    for (const zone of zones[unit]!) {
      if (reasons[zone] !== why.dropped) continue;
      reasons[zone] = why.grain;
      added = true;
    }
  }
  ofStart.forEach((unit, i) => {
    if (kept.has(unit)) starts[i] = 1;
  });
  return added;
};
