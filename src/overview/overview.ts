import type { Check, CheckedCue, WayOut } from '../keep/check/check.ts';
import type { NoKeepFile } from '../keep/no-keep-file.ts';
import type { CellState, KeyMapRow } from '../keep/key-map/key-map.ts';
import type {
  InstrumentBytes,
  PlanAllowances,
  PlanDoubt,
  PlanSettings,
  PlanTotal,
  PlanVersions,
  Reason,
  Witness,
} from '../keep/plan.ts';
import type { WayToFit } from '../keep/reel/reel-memory.ts';
import type { Figure } from '../memory/figure.ts';
import type { Change } from '../memory/reel/reel-loads.ts';
import type { Grain } from '../template/player.ts';
import type { DoubtName } from '../terms/doubt.ts';
import type { Finding } from '../terms/finding.ts';
import type { Range } from '../terms/range.ts';
import type { WorklistAction, WorklistMachine } from '../trim/worklist/worklist.ts';

/**
 * What the page for people shows, and the JSON that it holds: the result of `report`. A plan, its check,
 * the memory of its reel and its worklist in one value, with zones drawn together into maps of keys and
 * layers, so that a large template still makes a small page. Bytes are whole numbers; bars and beats
 * count from 1; cues, machines, instruments, tracks and reasons are referred to by index.
 */
export interface Overview {
  readonly schema: 'keepset/report@1';
  /** As the user called it; null: without a title. */
  readonly title: string | null;
  /** The octave that key 60 bears. */
  readonly middleC: number;
  /**
   * `path` null: the plan was made for this page, and `sha256` is of what `plan -o` would write; null
   * where it would refuse to, for the reason in `refused`.
   */
  readonly keep: {
    readonly path: string | null;
    readonly sha256: string | null;
    readonly refused: NoKeepFile | null;
  };
  /** null: one instrument plays all. */
  readonly template: { readonly path: string; readonly sha256: string } | null;
  readonly settings: PlanSettings;
  readonly total: PlanTotal;
  readonly proof: OverviewProof;
  /** In template order. */
  readonly machines: readonly OverviewMachine[];
  /** Steps of the worklist that free most, the most first: at most {@link mostActions}. */
  readonly actions: readonly OverviewAction[];
  readonly doubts: readonly PlanDoubt[];
  readonly together: readonly { readonly names: readonly DoubtName[]; readonly bytes: number }[];
  readonly doubtsAll: number;
  /** For each doubt that is open somewhere: instruments (indices) that keep something for it alone or with others. */
  readonly doubtsAt: readonly {
    readonly name: DoubtName;
    readonly instruments: readonly number[];
  }[];
  readonly allowances: PlanAllowances;
  readonly versions: readonly PlanVersions[];
  /** Tracks that are audio already. */
  readonly printed: {
    readonly parts: number;
    readonly zones: number;
    readonly bytes: number;
    readonly tracks: readonly { readonly cue: string; readonly track: string | null }[];
  };
  /** Runs of cues that are loaded together; null: all that the reel needs fits at once. */
  readonly groups: OverviewGroups | null;
  readonly risks: readonly OverviewRisk[];
  /** In template order. */
  readonly instruments: readonly OverviewInstrument[];
  /** In reel order. */
  readonly cues: readonly OverviewCue[];
  /** Names of tracks that witnesses refer to; null: without a name. */
  readonly tracks: readonly (string | null)[];
  /** Lists of reasons that cells refer to. */
  readonly reasons: readonly (readonly Reason[])[];
  /**
   * How many witnesses a cell has at the most: 3, or fewer where the instruments are so many that the
   * page would grow too large. `keepset why` has all of them.
   */
  readonly witnessesPerCell: number;
  /**
   * What the page that holds this gave up so that it does not grow too large; figures never are. Empty
   * in what `report` returns.
   */
  readonly reduced: readonly Reduction[];
  /** The steps for a person, by machine, none of them done. */
  readonly worklist: readonly OverviewList[];
  readonly findings: readonly Finding[];
}

/**
 * What a large page gives up: the middle of long names; witnesses of cells; the single keys that were played; cells beside each
 * other that differ in zone counts only, or are of one state, become one; misses and steps are counted
 * instead of listed; dynamics are told as `in part`; cells become octaves, layers
 * one row; keys in many pieces are told from the lowest to the highest, in part; no maps.
 */
export type Reduction =
  | 'long-names'
  | 'one-witness'
  | 'played-keys'
  | 'cells-alike'
  | 'no-witness'
  | 'cells-of-a-state'
  | 'misses'
  | 'steps'
  | 'dynamics'
  | 'octaves'
  | 'layers'
  | 'keys'
  | 'few-steps'
  | 'maps';

/** The steps of one machine. */
export interface OverviewList extends Omit<WorklistMachine, 'actions'> {
  readonly actions: readonly OverviewStep[];
  /** Steps that a large overview leaves out: those that free least. */
  readonly unlisted: { readonly steps: number; readonly frees: number };
}

/**
 * A step without the list of its zones, which for a large template is longer than all the rest of the
 * page: `keepset worklist --format json` has it.
 */
export interface OverviewStep extends Omit<WorklistAction, 'key' | 'zones'> {
  /** How many zones it loads or unloads. */
  readonly zones: number;
}

/** As many steps as a technician does before lunch. */
export const mostActions = 12;

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
  /** The first three. */
  readonly places: readonly Witness[];
  readonly bytes: number;
  /** Its parts may share samples, so that loading all takes less. */
  readonly bytesAtMost: boolean;
  readonly fits: boolean | null;
  /** What could be played instead, so that none of its zones is asked for: the first three. */
  readonly ways: readonly WayOut[];
}

export interface OverviewMachine {
  readonly id: string;
  readonly budget: number | null;
  readonly bytes: {
    /** Everything loaded. */
    readonly full: number;
    /** When all that is dropped is unloaded: likely, at the least, at the most. */
    readonly kept: number;
    readonly low: number;
    readonly high: number;
  };
  /** Judged on the high figure; null without a budget. */
  readonly fits: boolean | null;
  /** The cue (index) that needs most; null without cues. */
  readonly peak: { readonly cue: number; readonly bytes: number } | null;
  /** Steps of the worklist. */
  readonly steps: number;
  /** Where it does not fit: the five instruments that take most, the largest first. */
  readonly largest: readonly { readonly instrument: string; readonly bytes: number }[];
  /** Where it does not fit: what would free memory, the best three of each kind. */
  readonly ways: readonly WayToFit[];
}

export interface OverviewAction {
  /** Its number in the worklist. */
  readonly number: number;
  readonly machine: number;
  readonly instrument: number;
  readonly frees: number;
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

export interface OverviewInstrument {
  readonly id: string;
  readonly source: string;
  readonly machine: number;
  readonly player: string;
  readonly unloads: Grain;
  readonly zones: number;
  readonly zonesKept: number;
  readonly samples: number;
  readonly samplesKept: number;
  readonly bytes: InstrumentBytes;
  /** Note-ons sent to it. */
  readonly notes: number;
  readonly copies: readonly {
    readonly name: string;
    readonly notes: number;
    readonly zonesKept: number;
  }[];
  /** Where zones name microphones: how many of each are there and stay. */
  readonly microphones: readonly {
    readonly name: string;
    readonly zones: number;
    readonly zonesKept: number;
  }[];
  /** Doubts that keep something of it, by zones kept for them. */
  readonly doubts: readonly { readonly name: DoubtName; readonly zones: number }[];
  readonly pins: number;
  /** From the lowest key that starts anything to the highest; null: no key does. */
  readonly keys: Range | null;
  readonly articulations: readonly OverviewArticulation[];
  /** What cells refer to. */
  readonly witnesses: readonly CellWitness[];
}

/** [cue, track, bar, beat, key, velocity]; a cue is an index into `cues`, a track into `tracks`. */
export type CellWitness = readonly [
  cue: number,
  track: number,
  bar: number,
  beat: number,
  key: number | null,
  velocity: number | null,
];

export interface OverviewArticulation {
  readonly name: string;
  readonly switch: string | null;
  /** Notes that start it plainly, and what they play. */
  readonly notes: number;
  readonly keysPlayed: readonly Range[];
  readonly velocities: Range | null;
  readonly zones: number;
  readonly zonesKept: number;
  readonly bytes: { readonly full: number; readonly kept: number };
  /** On whichever copy it is written that can be asked for it. */
  readonly playable: Playable;
  /**
   * Where copies keep zones of their own: what each can still play of it (`copy` is an index into the
   * instrument's `copies`). Empty where all are alike. A copy that its route holds to another articulation
   * is left out.
   */
  readonly copies: readonly { readonly copy: number; readonly playable: Playable }[];
  readonly rows: readonly OverviewRow[];
}

/** What can still be written for an articulation. */
export interface Playable {
  /** `whole`: all of it stays. `part`: see `stretches`. `gone`: no zone that a note starts stays. */
  readonly state: 'whole' | 'part' | 'gone';
  /** The keys that had zones in the full instrument. */
  readonly all: readonly Range[];
  /** Keys with the same room for dynamics, from low to high; together the keys that still sound. */
  readonly stretches: readonly PlayableStretch[];
}

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
}

export interface OverviewRow extends Pick<
  KeyMapRow,
  'velocity' | 'controllers' | 'event' | 'zones'
> {
  readonly zonesKept: number;
  readonly cells: readonly OverviewCell[];
}

/** States in the order in which a cell gives them by number. */
export const cellStates: readonly CellState[] = ['kept', 'doubtful', 'spare', 'dropped'];

/**
 * [lowest key, highest key, state, zones, zones kept, reasons, first witness, witnesses]: `state` is an
 * index into {@link cellStates}, `reasons` into `reasons` (-1: dropped), witnesses are so many of the
 * instrument's from the first on.
 */
export type OverviewCell = readonly [
  lo: number,
  hi: number,
  state: number,
  zones: number,
  kept: number,
  reasons: number,
  witness: number,
  witnesses: number,
];

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
