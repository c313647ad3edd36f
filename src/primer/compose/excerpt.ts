import type { BarRun } from '../excerpts/choose-bars.ts';
import type { ExcerptEvents } from '../lanes.ts';
import type { ToRestore } from '../synthesis/restoring.ts';

/** A stretch of a cue that is part of a primer. */
export interface Excerpt {
  readonly run: BarRun;
  readonly events: ExcerptEvents;
  /** Copies that play it, with their sources on tracks of the primer. */
  readonly copies: ToRestore['copies'];
}
