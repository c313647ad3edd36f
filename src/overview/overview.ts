import type { NoKeepFile } from '../keep/no-keep-file.ts';
import type {
  PlanAllowances,
  PlanDoubt,
  PlanSettings,
  PlanTotal,
  PlanVersions,
  Reason,
} from '../keep/plan.ts';
import type { DoubtName } from '../terms/doubt.ts';
import type { Finding } from '../terms/finding.ts';
import type { OverviewInstrument } from './overview-instrument.ts';
import type { OverviewCue, OverviewGroups, OverviewMachine } from './overview-machines.ts';
import type { OverviewProof, OverviewRisk } from './overview-proof.ts';
import type { OverviewAction, OverviewList } from './overview-steps.ts';

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
  /** Steps of the worklist that free most, by articulation, the most first: at most {@link mostActions}. */
  readonly actions: readonly OverviewAction[];
  readonly doubts: readonly PlanDoubt[];
  readonly together: readonly { readonly names: readonly DoubtName[]; readonly bytes: number }[];
  readonly doubtsAll: number;
  /**
   * For each doubt, by index: `instruments` keep something for it, alone or with others, and nobody has
   * answered it there; `accepted` keep something on someone's word; at `plain` it was settled as plain.
   */
  readonly doubtsAt: readonly {
    readonly name: DoubtName;
    readonly instruments: readonly number[];
    readonly accepted: readonly number[];
    readonly plain: readonly number[];
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
