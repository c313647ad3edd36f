import type { Check, CheckedCue, MissBars, WayOut } from '../keep/check/check.ts';
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
  /** Of the zones in `total` those that only doubts ask for. */
  readonly doubtfulMisses: number;
  /** By unit of the player: what notes ask for plainly first, then the rest, each as it is heard. */
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
  /** Zones that notes ask for plainly; 0: only doubts ask for any. */
  readonly zones: number;
  /** Further zones that only doubts ask for. */
  readonly doubtfulZones: number;
  /** The doubts that those depend on. */
  readonly doubts: readonly DoubtName[];
  /** By the plain reading. */
  readonly notes: number;
  /** Further notes that do so only through a doubt. */
  readonly doubtfulNotes: number;
  /** Some of them may ask for several of its zones: there are no more notes than these, or fewer. */
  readonly notesAtMost: boolean;
  /** The same of the further notes. */
  readonly doubtfulNotesAtMost: boolean;
  /**
   * What asks, plainly where anything does: notes, controllers alone, or only what cuts other notes short,
   * which is counted as no notes.
   */
  readonly askedBy: 'notes' | 'controllers' | 'cuts';
  /** Keys, velocities and places are those of plain notes where there are any. */
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
  /**
   * Where to record as audio what asks for it plainly, and what asks for further zones in doubt. Empty
   * also where there are more than 24 stretches of bars: `check` tells all of them.
   */
  readonly bars: readonly MissBars[];
  readonly doubtfulBars: readonly MissBars[];
  /** Numbers of the steps of the worklist that unload some of it, ascending. */
  readonly steps: readonly number[];
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
