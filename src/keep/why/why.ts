import type { Finding } from '../../terms/finding.ts';
import type { Range } from '../../terms/range.ts';
import type { KeyMap } from '../key-map/key-map.ts';
import type { KeptZone, Witness } from '../plan.ts';

/** Why zones of an instrument stay or went: the result of `why`. */
export interface Why {
  readonly schema: 'keepset/why@1';
  readonly keep: { readonly path: string; readonly sha256: string };
  readonly instrument: string;
  readonly machine: string;
  /** The octave of key 60 in names of keys, as the template has it: 4 for C4. */
  readonly middleC: number;
  /** What was asked for; null where it was left open. */
  readonly asked: WhyAsked;
  /** Zones that were asked for, all of them where nothing was, in the order of the keep file. */
  readonly kept: readonly WhyKept[];
  readonly dropped: readonly WhyDropped[];
  /** Rows in which a zone stands that was asked for; null without the instrument's definition. */
  readonly map: KeyMap | null;
  readonly findings: readonly Finding[];
}

export interface WhyAsked {
  readonly zone: number | null;
  readonly key: number | null;
  readonly velocity: number | null;
  /** Of an articulation and of a sample as the user wrote it. */
  readonly articulation: string | null;
  readonly sample: string | null;
}

/** True when nothing in particular was asked for: the whole instrument is meant. */
export const asksAll = (asked: WhyAsked): boolean =>
  Object.values(asked).every((one) => one === null);

/** What a zone answers to. Without the instrument's definition nothing but its articulations is known. */
export interface WhyZone {
  /** Names of its articulations. */
  readonly articulationNames: readonly string[];
  /** Notes that play any of them in the plan; one that plays two counts in both. */
  readonly articulationNotes: number;
  /** From the lowest to the highest key; null where no key starts it, or it is not known. */
  readonly keys: Range | null;
  readonly velocities: Range | null;
  /** By number; those that do not matter are left out. */
  readonly controllers: readonly { readonly number: number; readonly range: Range }[];
}

export interface WhyKept extends KeptZone, WhyZone {
  /** Names of the copies that keep it; null where all copies load the same. */
  readonly copies: readonly string[] | null;
}

export interface WhyDropped extends WhyZone {
  readonly zone: number;
  readonly key: string | null;
  readonly samples: readonly string[];
  readonly bytes: number;
  /**
   * What came nearest to needing it, the nearest first: one way at most for each thing that kept it
   * from being reached. Null where the cues were not played: nothing in particular was asked for, or
   * they were not at hand. Empty: nothing came near, or more than one thing stood in the way.
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
  /** Notes that are as near. */
  readonly notes: number;
  /** The first of them. */
  readonly place: Witness;
}
