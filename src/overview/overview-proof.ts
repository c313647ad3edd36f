import type { Check, CheckedCue, WayOut } from '../keep/check/check.ts';
import type { Witness } from '../keep/plan.ts';
import type { DoubtName } from '../terms/doubt.ts';
import type { Range } from '../terms/range.ts';

/** What was checked against the plan. */
export interface OverviewProof {
  readonly verdict: Check['verdict'];
  /** `plan`: the cues that it was made from; `named`: cues that were named beside a keep file. */
  readonly of: 'plan' | 'named';
  readonly cues: readonly CheckedCue[];
  readonly absent: readonly string[];
  readonly leftOut: readonly string[];
  readonly accepted: readonly string[];
  readonly notes: number;
  readonly open: Check['open'];
  readonly settled: Check['proof']['settled'];
  readonly total: Check['total'];
  /** By unit of the player, in the order in which they are heard first. */
  readonly misses: readonly OverviewMiss[];
  /** How many more of them a large overview leaves out. */
  readonly unlisted: number;
}

/** Zones that are asked for, were dropped, and come back together. */
export interface OverviewMiss {
  /** Id: it may not be in the plan. */
  readonly instrument: string;
  readonly machine: string;
  readonly copy: string | null;
  readonly articulations: readonly string[];
  readonly zones: number;
  /** By the plain reading; 0: only doubts ask for it. */
  readonly notes: number;
  /** Further notes that do so only through a doubt. */
  readonly doubtfulNotes: number;
  /** Some of them may ask for several of its zones: there are no more notes than these, or fewer. */
  readonly notesAtMost: boolean;
  readonly keys: readonly Range[];
  readonly velocities: Range | null;
  /** The first three beats, by track, each with its first note. */
  readonly places: readonly Witness[];
  readonly bytes: number;
  /** Its parts may share samples, so that loading all takes less. */
  readonly bytesAtMost: boolean;
  readonly fits: boolean | null;
  /** What could be played instead, so that none of its zones is asked for: the first three. */
  readonly ways: readonly WayOut[];
}

/** What a mix engineer should know before trusting the rig. */
export type OverviewRisk =
  /** Settled as plain: what only this doubt would have kept is gone, on someone's word. */
  | { readonly kind: 'settled'; readonly doubt: DoubtName; readonly instruments: readonly string[] }
  | {
      readonly kind: 'left-out' | 'damaged' | 'unreadable' | 'accepted';
      readonly cues: readonly string[];
    }
  /** Samples whose size nobody knows: they count as nothing. */
  | { readonly kind: 'unknown-size'; readonly instruments: readonly number[] }
  /** The high figure comes near the budget (less than a twentieth to spare), or above it. */
  | { readonly kind: 'tight' | 'over'; readonly machine: number; readonly bytes: number }
  /** Parts that no rule takes are left aside. */
  | { readonly kind: 'unmapped'; readonly parts: number }
  /** Notes that nothing answers. */
  | { readonly kind: 'silent-notes'; readonly instruments: readonly number[] }
  /** No room around what was played: a revision a semitone off is not covered. */
  | { readonly kind: 'no-headroom' };
