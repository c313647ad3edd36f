import { assumed, framesOf, widths } from '../frames.ts';
import type { Sample } from '../instrument.ts';
import type { Outline, OutlineArticulation } from './outline.ts';
import type { OutlineZone, Role } from './outline-zone.ts';

/** How large the sample of a zone is. */
export type ZoneSize = Omit<Sample, 'name' | 'partner'>;

/** What is known of the size of one role's zones in one articulation. */
type Known = { readonly seconds: number } | { readonly pool: Pool } | null;

/** Bytes that were read off for several zones together. */
interface Pool {
  readonly bytes: number;
  zones: number;
}

/**
 * The size of each zone: by its length, or an even part of what the player's display showed. What it
 * showed holds for all zones of the articulation that have no length, or for its releases or transitions
 * where they were read by themselves.
 */
export const zoneSizes = (
  { articulations, measured }: Outline,
  zones: readonly OutlineZone[],
): readonly ZoneSize[] => {
  const empty = measured.empty?.bytes ?? 0;
  const known = articulations.map((own) => knownSizes(own, empty));
  const knownOf = ({ articulation, role }: OutlineZone): Known => known[articulation]![role];
  for (const zone of zones) {
    const one = knownOf(zone);
    if (one !== null && 'pool' in one) one.pool.zones++;
  }
  return zones.map((zone) => {
    const { sound } = articulations[zone.articulation]!;
    const one = knownOf(zone);
    const stored = {
      rate: sound.rate ?? assumed.rate,
      channels: sound.channels ?? assumed.channels,
      width: widths.get(sound.bits ?? assumed.bits)!,
    };
    if (one === null) return { ...stored, frames: 0, present: false };
    if ('seconds' in one) {
      return { ...stored, frames: framesOf(one.seconds, stored.rate), present: true };
    }
    const { bytes, zones: number } = one.pool;
    // Bytes alone: as frames of one byte each.
    return {
      frames: Math.ceil(bytes / number),
      channels: 1,
      width: 1,
      rate: stored.rate * stored.channels * stored.width,
      present: true,
      asLoaded: true,
    };
  });
};

const knownSizes = (
  { seconds, measured, releases, legato }: OutlineArticulation,
  empty: number,
): Readonly<Record<Role, Known>> => {
  const poolOf = (one: typeof measured): Known =>
    one === null ? null : { pool: { bytes: Math.max(0, one.bytes - empty), zones: 0 } };
  const whole = poolOf(measured);
  const of = (part: Pick<OutlineArticulation, 'seconds' | 'measured'> | null): Known => {
    if (part === null) return null;
    return part.seconds === null ? (poolOf(part.measured) ?? whole) : { seconds: part.seconds };
  };
  return {
    note: seconds === null ? whole : { seconds },
    release: of(releases),
    legato: of(legato),
  };
};
