import type { DraftTrack } from './collect-tracks.ts';
import type { TrackGroup } from './group-tracks.ts';

/** A rule of the draft. */
export interface DraftRule {
  readonly group: TrackGroup;
  /** What it is made for. */
  readonly tracks: readonly DraftTrack[];
  /** `join`: the tracks drive one copy. */
  readonly by: 'track' | 'join';
  readonly patterns: readonly string[];
  readonly articulation: string | null;
  /** For a person, without the `#`. */
  readonly comments: readonly string[];
}
