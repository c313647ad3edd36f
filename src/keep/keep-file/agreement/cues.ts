import type { Plan } from '../../plan.ts';
import type { Disagreements } from './disagreements.ts';

/** @returns the ids of the cues */
export const cuesAgree = (
  { cues, versions, instruments, total }: Plan,
  found: Disagreements,
): ReadonlySet<string> => {
  const ids = found.once(
    'cue',
    cues.map(({ id }) => id),
  );
  for (const { id, tracks } of cues) {
    found.once('cue-track', [...tracks.played, ...tracks.silent], id);
  }
  const kept = instruments.reduce((sum, one) => sum + one.kept.length, 0);
  for (const { cue, versions: own, zones, bytes } of versions) {
    found.atMost('versions-zones', zones, kept, cue);
    found.atMost('versions-bytes', bytes, total.bytes.kept, cue);
    for (const id of found.once('version', own, cue)) found.known('version', id, ids, cue);
    found.atLeast('versions', own.length, 2, cue);
  }
  return ids;
};
