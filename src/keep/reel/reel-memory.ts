import type { Figure } from '../../memory/figure.ts';
import type { Change } from '../../memory/reel/reel-loads.ts';
import type { Basis } from '../../memory/loaded-memory.ts';
import type { PlacedLine } from '../../template/placed-lines.ts';
import type { Grain } from '../../template/player.ts';
import type { DoubtName } from '../../terms/doubt.ts';
import type { Finding } from '../../terms/finding.ts';
import type { PlanCue, PlanSettings } from '../plan.ts';

/**
 * What the cues of a reel need in memory: the result of `memory` (design, section 7). Bytes are whole
 * numbers; cues stand in the order in which they are loaded.
 */
export interface ReelMemory {
  readonly schema: 'keepset/memory@1';
  readonly settings: ReelMemorySettings;
  readonly template: { readonly sha256: string } | null;
  /** The keep file that it went by; null: cues were named. */
  readonly keep: { readonly sha256: string } | null;
  readonly cues: readonly CueMemory[];
  readonly instruments: readonly ReelInstrument[];
  readonly machines: readonly ReelMachine[];
  readonly total: ReelTotal;
  /** null: not asked for, and all that is needed fits at once. */
  readonly groups: LoadingGroups | null;
  /** One cue by bars; null: not asked for. */
  readonly cue: CueRests | null;
  /** null: not asked for. */
  readonly placement: Placement | null;
  /** null: not asked for. */
  readonly comparison: Comparison | null;
  readonly findings: readonly Finding[];
}

export interface ReelMemorySettings extends PlanSettings {
  /** Ids of cues in the order they are loaded in; null: the order of the reel. */
  readonly order: readonly string[] | null;
  /** Budgets that were tried in place of the template's, by machine. */
  readonly budgets: Readonly<Record<string, number>>;
  /** Cues are loaded group by group: each group must fit, not the reel. */
  readonly inGroups: boolean;
}

/** What one cue needs, alone, and against the cue before it. */
export interface CueMemory extends Figure, Change {
  readonly id: string;
  readonly seconds: number;
  readonly state: PlanCue['state'];
  /** All machines of the template, in its order. */
  readonly machines: readonly CueMachine[];
  /** Those of which something is needed, or was in the cue before, in the order of the template. */
  readonly instruments: readonly CueInstrument[];
}

export interface CueMachine extends Figure, Change {
  readonly id: string;
  /** Judged on the high figure; null: no budget. */
  readonly fits: boolean | null;
}

/** Samples that several instruments hold in common count in each. */
export interface CueInstrument extends Figure, Change {
  readonly id: string;
  readonly machine: string;
  readonly basis: Basis;
  /** Loaded zones. */
  readonly zones: number;
}

/** An instrument over the reel. */
export interface ReelInstrument extends Figure {
  readonly id: string;
  readonly source: string;
  readonly machine: string;
  readonly player: string;
  readonly unloads: Grain;
  readonly basis: Basis;
  /** All of it in every copy. */
  readonly full: number;
  /** What the cue takes that needs most of it; 0 where none needs any. */
  readonly peak: number;
  /** How many cues need some of it. */
  readonly cues: number;
}

/** A machine over the reel. Its own figure is that of all cues loaded together. */
export interface ReelMachine extends Figure {
  readonly id: string;
  readonly budget: number | null;
  /** All instruments of the template on it, as they are before anything is unloaded. */
  readonly full: number;
  /** The cue that needs most, by the likely figure; null without cues. */
  readonly peak: (Figure & { readonly cue: string }) | null;
  /** Judged on the high figure; null: no budget. */
  readonly fits: boolean | null;
  /** Bytes by which the high figure is above the budget; 0 where it is not. */
  readonly over: number;
  /** Where the reel does not fit and is not loaded in groups: what takes most, the largest first. */
  readonly largest: readonly { readonly instrument: string; readonly bytes: number }[];
  /** In the same case: what would free memory, by kind, the best of each kind first. */
  readonly ways: readonly WayToFit[];
}

/** What would make room on a machine: each alone, all else as it is. */
export type WayToFit = {
  /** Bytes that the machine's high figure falls by. */
  readonly bytes: number;
  /** It would be enough: for a move, on the other machine too. */
  readonly fits: boolean;
} & (
  | {
      /** Doubts to settle as the plain reading. */
      readonly kind: 'settle';
      readonly doubts: readonly DoubtName[];
    }
  | {
      /** Its player would have to let go of smaller units. */
      readonly kind: 'unload-by';
      readonly instrument: string;
      readonly from: Grain;
      readonly to: Grain;
    }
  | {
      /** A smaller instrument, written by `trim`, is loaded in its place. */
      readonly kind: 'trim';
      readonly instrument: string;
    }
  | { readonly kind: 'move'; readonly instrument: string; readonly to: string }
);

export interface ReelTotal extends Figure {
  /** All instruments before anything is unloaded. */
  readonly full: number;
  /** The cue that needs most over all machines; null without cues. */
  readonly peak: { readonly cue: string; readonly bytes: number } | null;
}

/** Runs of cues that are loaded together, as few as the budgets allow. */
export interface LoadingGroups {
  readonly groups: readonly LoadingGroup[];
  /** Bytes loaded at the changes: the first group, which is loaded before the work, is left out. */
  readonly load: number;
  /** How long that takes: machines load at the same time; null where a player has no load-rate. */
  readonly seconds: number | null;
  /** Cues that do not fit alone and are in no group that does: each is a group of its own. */
  readonly alone: readonly {
    readonly cue: string;
    readonly machine: string;
    /** Bytes by which the high figure is above the budget. */
    readonly missing: number;
  }[];
}

export interface LoadingGroup extends Figure, Change {
  /** Ids. */
  readonly cues: readonly string[];
  readonly machines: readonly CueMachine[];
  /** What to load and what may go, instrument by instrument. */
  readonly instruments: readonly CueInstrument[];
  /** Of loading it, the first one too. */
  readonly seconds: number | null;
}

/** A moment of a cue; bars and beats count from 1. */
export interface CueMoment {
  readonly bar: number;
  readonly beat: number;
  readonly seconds: number;
  /** `hh:mm:ss:ff`; null where the cue gives none. */
  readonly timecode: string | null;
}

/** When the instruments of one cue play, and when they could be out of memory. */
export interface CueRests {
  readonly id: string;
  readonly start: CueMoment;
  readonly end: CueMoment;
  /** Files of the cue that could not be read: what they play is unknown, and needs everything. */
  readonly unreadable: readonly string[];
  /** Seconds that a sound is taken to ring on after its key where that is not read or not known. */
  readonly assumedRelease: number;
  /** Those that play, by the bytes that they need, the most first. */
  readonly instruments: readonly InstrumentRests[];
}

export interface InstrumentRests {
  readonly id: string;
  readonly machine: string;
  /** What the cue needs of it. */
  readonly bytes: number;
  /** How long loading that takes; null: its player has no load-rate. */
  readonly loadSeconds: number | null;
  readonly notes: number;
  /** Where its first note begins, and where its last sound ends. */
  readonly first: CueMoment;
  readonly last: CueMoment;
  /** The longest stretches without a sound, the longest first. */
  readonly rests: readonly CueRest[];
}

export interface CueRest {
  /** Before its first note, between two, or behind its last. */
  readonly at: 'before' | 'between' | 'after';
  readonly from: CueMoment;
  readonly to: CueMoment;
  readonly seconds: number;
}

/** Where instruments would go so that everything fits. */
export interface Placement {
  /**
   * `fits`: nothing has to move. `placed`: moves were found. `impossible`: there is no way, and that is
   * proved. `open`: none was found within the effort that is spent, and none is ruled out.
   */
  readonly state: 'fits' | 'placed' | 'impossible' | 'open';
  readonly moves: readonly {
    readonly instrument: string;
    readonly from: string;
    readonly to: string;
    /** What the reel needs of it: the likely figure. */
    readonly bytes: number;
  }[];
  /** Bytes of all that moves. */
  readonly bytes: number;
  /** How many bytes less another placement might move; 0: none moves less, and that is proved. */
  readonly gap: number;
  /** As they would be then. */
  readonly machines: readonly (Figure & {
    readonly id: string;
    readonly budget: number | null;
    readonly fits: boolean | null;
  })[];
  /** What to write into the template, by its lines as they stand; empty without a template. */
  readonly lines: readonly PlacedLine[];
}

/** What players show, held against what was estimated. */
export interface Comparison {
  /** The table of readings, as the user named it. */
  readonly file: string;
  readonly rows: readonly ComparedReading[];
  /** Players of which something was read, in the order of the template. */
  readonly players: readonly RefittedPlayer[];
}

export interface ComparedReading {
  readonly instrument: string;
  /** One copy was read; null: all copies of the instrument together. */
  readonly copy: string | null;
  readonly player: string;
  readonly shown: number;
  readonly estimate: Figure & { readonly basis: Basis };
  /** Shown less estimated. */
  readonly error: number;
  /** What the refitted player says of it; null: readings of its own in the template decide. */
  readonly refitted: number | null;
}

/** A player fitted to what was read of its instruments: shown = copies x fixed + factor x computed. */
export interface RefittedPlayer {
  readonly id: string;
  /** Those of the table, and those that stand in the template (`measured`). */
  readonly readings: number;
  readonly measured: number;
  /** Of a copy, beyond what is computed. */
  readonly fixed: number;
  readonly factor: number;
  /** The worst difference, in bytes, before and after. */
  readonly worstBefore: number;
  readonly worstAfter: number;
  /** What to write into the template's player; null without a template. */
  readonly keys: {
    readonly 'per-copy': number;
    readonly 'per-zone': number;
    readonly factor: number;
  } | null;
}
