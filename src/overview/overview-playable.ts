import type { Range } from '../terms/range.ts';

/** What can still be written for an articulation. */
export interface Playable {
  /**
   * `whole`: all of it stays. `part`: see `stretches`. `gone`: whatever is written asks for something that
   * was dropped.
   */
  readonly state: 'whole' | 'part' | 'gone';
  /** The keys that had zones in the full instrument. */
  readonly all: readonly Range[];
  /** Keys with the same room for dynamics, from low to high; together those at which something can be written without a miss. */
  readonly stretches: readonly PlayableStretch[];
}

/** What chooses among zones beside key, velocity, controllers and articulation. */
export type OtherControl = 'note-before' | 'held-keys' | 'bend' | 'pressure' | 'tempo';

export interface PlayableStretch {
  readonly keys: readonly Range[];
  /**
   * By each thing that chooses among the layers: the values with which a note asks for nothing that was
   * dropped, whatever the other controls do. Empty: dynamics choose nothing here, and all of it stays.
   */
  readonly dynamics: readonly {
    /** `velocity`, or the number of a controller. */
    readonly by: 'velocity' | number;
    readonly safe: readonly Range[];
    /** All values that the full instrument answers to. */
    readonly all: Range;
  }[];
  /**
   * Where no control is safe whatever the others do: ranges in which a note asks for nothing that was
   * dropped as long as all of these controls stay in theirs at once; the box with the most values. Empty:
   * there is none, or `dynamics` has limits by itself.
   */
  readonly together: readonly { readonly by: 'velocity' | number; readonly range: Range }[];
  /**
   * Where not even that is there, because what starts depends on something else too: all that decides
   * together whether a note asks for something that was dropped. Empty: there are limits.
   */
  readonly dependsOn: readonly ('velocity' | number | OtherControl)[];
  /** Within all that, the end of a note may ask for something that was dropped. */
  readonly releasesGone: boolean;
}
