import { withoutVersion } from '../../midi/cue-name.ts';
import { finding, type Finding } from '../../terms/finding.ts';
import type { CheckedCue } from './check.ts';
import type { PlanCue } from '../plan.ts';

/** What was checked of what was planned. */
export interface CheckedReel {
  readonly cues: readonly CheckedCue[];
  /** Ids of planned cues that were not checked, and that no checked cue is a newer version of. */
  readonly absent: ReadonlySet<string>;
  /** Ids of checked cues that are not what was planned. */
  readonly changed: ReadonlySet<string>;
}

type Versioned = Pick<PlanCue, 'id' | 'version' | 'files'>;

/** @param planned cues of the keep file @param cues cues that are checked, in reel order */
export const checkedReel = (planned: readonly PlanCue[], cues: readonly PlanCue[]): CheckedReel => {
  const byId = new Map(planned.map((cue) => [cue.id, cue]));
  const numbers = new Set(planned.map(({ id }) => withoutVersion(id)));
  const changeOf = (cue: PlanCue): CheckedCue['change'] => {
    const before = byId.get(cue.id);
    if (before !== undefined && digestsOf(before) === digestsOf(cue)) return 'same';
    return numbers.has(withoutVersion(cue.id)) ? 'changed' : 'new';
  };
  const isStanding = (cue: PlanCue): boolean =>
    !cues.some((one) => one.id === cue.id || isNewer(one, cue));
  const checked = cues.map((cue): CheckedCue => ({ ...withoutTracks(cue), change: changeOf(cue) }));
  return {
    cues: checked,
    absent: new Set(planned.filter(isStanding).map(({ id }) => id)),
    changed: new Set(checked.flatMap(({ id, change }) => (change === 'same' ? [] : [id]))),
  };
};

/** Names of tracks are not what a proof covers. */
const withoutTracks = (cue: PlanCue): Omit<CheckedCue, 'change'> => {
  const { id, files, version, parts, notes, seconds, music, lastMarker, timecode, state } = cue;
  return { id, files, version, parts, notes, seconds, music, lastMarker, timecode, state };
};

/** A cue without a version is older than any. */
const isNewer = (a: Versioned, b: Versioned): boolean =>
  withoutVersion(a.id) === withoutVersion(b.id) && (a.version ?? -1) > (b.version ?? -1);

const digestsOf = ({ files }: Versioned): string =>
  files
    .map(({ sha256 }) => sha256)
    .sort()
    .join(' ');

/**
 * Cues of which only some of the planned files are checked.
 *
 * @param planned cues of the keep file
 */
export const missingFiles = (
  planned: readonly PlanCue[],
  cues: readonly PlanCue[],
): readonly Finding[] =>
  cues.flatMap(({ id, files }): readonly Finding[] => {
    const before = planned
      .filter((cue) => withoutVersion(cue.id) === withoutVersion(id))
      .map((cue) => cue.files.length);
    const most = Math.max(0, ...before);
    if (most <= files.length) return [];
    const args = { cue: id, files: files.length, planned: most };
    return [finding('warning', 'check-files-missing', files[0]?.path ?? null, args)];
  });
