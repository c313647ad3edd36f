import type { FileUsage } from '../playback/zone-usage.ts';
import type { Headroom } from '../template/template.ts';
import { cueVersions } from './cue-versions.ts';
import { decide, type Subject } from './decision.ts';
import { noRoom } from './headroom-curve/near-starts.ts';
import { InstrumentInParts } from './headroom-curve/part-of-reel.ts';
import { keptAmount, type KeptAmount } from './kept-amount.ts';
import type { PlanVersions } from './plan.ts';

/**
 * What the older versions of each cue keep that nothing else asks for (design, section 6: versions).
 *
 * @param files in reel order, without printed tracks
 * @param now what stays with all versions
 */
export const planVersions = (
  subjects: readonly Subject[],
  files: readonly FileUsage[],
  { keys, velocity, controller }: Headroom,
  now: KeptAmount,
): readonly PlanVersions[] => {
  const several = cueVersions(files).filter(({ versions }) => versions.length > 1);
  if (several.length === 0) return [];
  const rooms = { rooms: [noRoom, { velocity, controller }], keys };
  const instruments = subjects.map((subject) => new InstrumentInParts(subject, rooms));
  return several.map(({ cue, versions }) => {
    const older = new Set(versions.slice(0, -1).flatMap((version) => version.files));
    const rest = files.filter((file) => !older.has(file));
    const without = instruments.map((one) => one.subjectOf(one.part(rest), 1, keys, true));
    const { zones, bytes } = keptAmount(
      without,
      without.map((subject) => decide(subject, 0)),
    );
    return {
      cue,
      versions: versions.map(({ id }) => id),
      // An older version may choose what no other does, and so answer a doubt: then more would stay.
      zones: Math.max(0, now.zones - zones),
      bytes: Math.max(0, now.bytes - bytes),
    };
  });
};
