import type { PlanMachine } from '../keep/plan.ts';
import type { WayToFit } from '../keep/reel/reel-memory.ts';
import type { Figure } from '../memory/figure.ts';
import type { Change } from '../memory/reel/reel-loads.ts';

export interface OverviewMachine extends PlanMachine {
  /** Whether it fits with everything loaded; null without a budget. */
  readonly fitsNow: boolean | null;
  /**
   * The step of the worklist after which it fits, when they are done in their order, without those that
   * are against what was checked; judged as `fits` is. null: it fits as it is, has no budget, or does not
   * fit by these steps.
   */
  readonly fitsAfter: number | null;
  /** The cue (index) that needs most; null without cues. */
  readonly peak: { readonly cue: number; readonly bytes: number } | null;
  /** Steps of the worklist. */
  readonly steps: number;
  /** Where it does not fit: the five instruments that take most, the largest first. */
  readonly largest: readonly { readonly instrument: string; readonly bytes: number }[];
  /** Where it does not fit: what would free memory, the best three of each kind. */
  readonly ways: readonly WayToFit[];
}

export interface OverviewGroups {
  readonly groups: readonly (Figure &
    Change & { readonly cues: readonly number[]; readonly seconds: number | null })[];
  readonly load: number;
  readonly seconds: number | null;
  readonly alone: readonly {
    readonly cue: number;
    readonly machine: number;
    readonly missing: number;
  }[];
}

/** A cue of the reel: what it is, and what it needs. */
export interface OverviewCue extends Figure, Change {
  readonly id: string;
  readonly version: number | null;
  readonly files: readonly { readonly path: string; readonly sha256: string }[];
  readonly state: 'read' | 'damaged' | 'unreadable';
  readonly notes: number;
  readonly seconds: number;
  /** Of all machines, in their order. */
  readonly machines: readonly Figure[];
  /** Instruments that it needs something of: index and bytes, by index. */
  readonly needs: readonly (readonly [instrument: number, bytes: number])[];
}
