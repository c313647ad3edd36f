/** Regions that make no sound, and whether anybody would notice if they were gone. */
import { integer, type OracleRegion } from './sfz-regions.ts';
import type { Span } from './sfz-switches.ts';
import { keysOfRegion, startsByRelease, velocitiesOf, type Readings } from './sfz-triggers.ts';

export function hasSound(region: OracleRegion): boolean {
  const sample = region.opcodes.get('sample') ?? '';
  const end = integer(region, 'end');
  return sample !== '' && sample !== '*silence' && end !== -1 && end !== 0;
}

/** Whether a silent start can be noticed: it may end other voices, or count among them. */
export function canChoke(regions: readonly OracleRegion[], region: OracleRegion): boolean {
  const group = integer(region, 'group') ?? 0;
  const cuts = regions.some((other) => integer(other, 'off_by') === group);
  const counts = ['polyphony', 'note_polyphony'].some((name) => region.opcodes.has(name));
  return (group !== 0 && cuts) || counts;
}

/**
 * Whether a silent start by a note can let a release sound: an engine plays a release region only
 * where a voice of its keys and velocities sounds, heard or not (activation E).
 */
export function canShield(regions: readonly OracleRegion[], region: OracleRegion): boolean {
  if (startsByRelease(region)) return false;
  const meet = (a: Readings, b: Readings, [least, most]: Span) =>
    [a.plain, a.loose].some((x) =>
      [b.plain, b.loose].some((y) => Math.max(x[0], y[0], least) <= Math.min(x[1], y[1], most)),
    );
  return regions.some(
    (other) =>
      startsByRelease(other) &&
      meet(keysOfRegion(region), keysOfRegion(other), [0, 127]) &&
      meet(velocitiesOf(region), velocitiesOf(other), [1, 127]),
  );
}
