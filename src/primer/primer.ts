import type { Finding } from '../terms/finding.ts';

/** A cue that makes players load the keep set: the result of `primer` (design, section 9). */
export interface Primer {
  readonly schema: 'keepset/primer@1';
  readonly keep: { readonly path: string; readonly sha256: string };
  /** The export whose tracks it has. */
  readonly base: { readonly cue: string; readonly path: string };
  /** How long it plays, and the reel. */
  readonly seconds: number;
  readonly reelSeconds: number;
  readonly notes: number;
  /** sha256 of the file. */
  readonly sha256: string;
  /** In template order. */
  readonly machines: readonly PrimerMachine[];
  readonly excerpts: readonly PrimerExcerpt[];
  readonly notPrimed: readonly NotPrimed[];
  readonly chances: readonly PrimerChance[];
  readonly accepted: {
    readonly damage: readonly string[];
    readonly partial: readonly string[];
    readonly unmapped: boolean;
  };
  readonly findings: readonly Finding[];
}

export interface PrimerMachine {
  readonly id: string;
  readonly seconds: number;
  readonly instruments: readonly PrimerInstrument[];
}

export interface PrimerInstrument {
  readonly id: string;
  readonly copies: number;
  /** Zones that stay with their samples. */
  readonly zones: number;
  /** Of these, primed by notes made for it, and by excerpts. */
  readonly synthesised: number;
  readonly excerpted: number;
  readonly notPrimed: number;
  /** What its player should show when it is done, in all copies. */
  readonly bytes: number;
}

/** Bars of a cue that are played as they are. */
export interface PrimerExcerpt {
  readonly cue: string;
  /** From 1; `to` is the last bar. */
  readonly bars: readonly [from: number, to: number];
  /** Where it begins in the primer, in seconds. */
  readonly at: number;
  readonly instruments: readonly string[];
  /** Zones that nothing before it has primed. */
  readonly zones: number;
}

/** A kept zone that the primer does not load. */
export interface NotPrimed {
  readonly instrument: string;
  readonly copy: string | null;
  readonly zone: number;
  readonly key: string | null;
  /**
   * `doubt`: nothing starts it for certain; `others`: no note starts it without something that was
   * dropped; `conditions`: what it asks for can't be sent; `no-track`: no track reaches its copy;
   * `picked`: its player picks it by itself, and no bars of the cues start it; `tied`: its copy plays
   * another articulation whatever is sent, so nothing can ask for it there, and nothing lacks it.
   */
  readonly because: 'doubt' | 'others' | 'conditions' | 'no-track' | 'picked' | 'tied';
}

/** Samples that a player picks by chance. */
export interface PrimerChance {
  readonly instrument: string;
  /** Zones, how often their note is played, and the chance that the least likely is missed all the same. */
  readonly zones: number;
  readonly plays: number;
  readonly miss: number;
}

/** Whether a cue still loads the keep set: the result of `primer --verify`. */
export interface PrimerVerification {
  readonly schema: 'keepset/primer-verification@1';
  readonly keep: { readonly path: string; readonly sha256: string };
  readonly file: string;
  readonly verdict: 'verified' | 'not-verified';
  readonly instruments: readonly {
    readonly id: string;
    /** Zones that stay and that the primer loads. */
    readonly zones: number;
    readonly loaded: number;
    /** Zones that stay, that no primer loads and the file does not either; without those that are `tied`. */
    readonly notPrimed: number;
    /** Zones that stay and are not started for certain. */
    readonly missing: readonly MissingZone[];
    /** Zones that are started and do not stay. */
    readonly needless: readonly MissingZone[];
  }[];
  readonly findings: readonly Finding[];
}

export interface MissingZone {
  readonly zone: number;
  readonly key: string | null;
  readonly copy: string | null;
}
