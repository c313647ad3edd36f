import type { Finding } from '../../terms/finding.ts';
import type { Range } from '../../terms/range.ts';
import type { KeptZone, Witness } from '../plan.ts';

/** Why zones of an instrument stay or went: the result of `why`. */
export interface Why {
  readonly schema: 'keepset/why@1';
  readonly keep: { readonly path: string; readonly sha256: string };
  readonly instrument: string;
  readonly machine: string;
  /** What was asked for; null where it was left open. */
  readonly asked: WhyAsked;
  /** Zones that were asked for, by number. */
  readonly kept: readonly WhyKept[];
  readonly dropped: readonly WhyDropped[];
  readonly findings: readonly Finding[];
}

export interface WhyAsked {
  readonly zone: number | null;
  readonly key: number | null;
  readonly velocity: number | null;
  readonly articulation: string | null;
  readonly sample: string | null;
}

/** What a zone answers to. */
export interface WhyZone {
  /** Names of its articulations. */
  readonly articulationNames: readonly string[];
  readonly keys: Range;
  readonly velocities: Range;
  readonly controllers: readonly { readonly number: number; readonly range: Range }[];
}

export interface WhyKept extends KeptZone, WhyZone {}

export interface WhyDropped extends WhyZone {
  readonly zone: number;
  readonly key: string | null;
  readonly samples: readonly string[];
  readonly bytes: number;
  /**
   * What came nearest to needing it, the nearest first: one way at most for each thing that kept it
   * from being reached. Null where the cues were not at hand; empty: nothing came near.
   */
  readonly nearest: readonly Nearest[] | null;
}

/** A note that would have reached a zone, had it been a little different. */
export interface Nearest {
  /**
   * `keys`: semitones away; `velocity`, `controller`: steps away; `articulation`: another one was
   * chosen; `settled`: only through a doubt that was settled as plain.
   */
  readonly by: 'keys' | 'velocity' | 'controller' | 'articulation' | 'settled';
  /** Semitones or steps; 0 for an articulation or an answer. */
  readonly distance: number;
  /** Doubts that were settled as plain, for `settled`. */
  readonly doubts: readonly string[];
  readonly notes: number;
  readonly place: Witness;
}
