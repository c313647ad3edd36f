import { withoutVersion } from '../../midi/cue-name.ts';
import type { CheckedCue } from './check.ts';
import type { PlanCue } from '../plan.ts';

/** What was checked of what was planned. */
export interface CheckedReel {
  readonly cues: readonly CheckedCue[];
  /** Ids of planned cues that were not checked, and that no checked cue is a newer version of. */
  readonly absent: ReadonlySet<string>;
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
  return {
    cues: cues.map(({ tracks: _tracks, ...cue }) => ({
      ...cue,
      change: changeOf({ ...cue, tracks: _tracks }),
    })),
    absent: new Set(planned.filter(isStanding).map(({ id }) => id)),
  };
};

/** A cue without a version is older than any. */
const isNewer = (a: Versioned, b: Versioned): boolean =>
  withoutVersion(a.id) === withoutVersion(b.id) && (a.version ?? -1) > (b.version ?? -1);

const digestsOf = ({ files }: Versioned): string =>
  files
    .map(({ sha256 }) => sha256)
    .sort()
    .join(' ');
