import type { Instrument } from '../instruments/instrument.ts';
import type { Check } from '../keep/check/check.ts';
import type { OtherNotes } from '../keep/other-notes.ts';
import type { Plan } from '../keep/plan.ts';
import type { ReelMemory } from '../keep/reel/reel-memory.ts';
import type { FileUsage } from '../playback/zone-usage.ts';
import type { Template } from '../template/template.ts';
import type { Worklist } from '../trim/worklist/worklist.ts';
import type { Overview } from './overview.ts';
import type { OverviewProof } from './overview-proof.ts';

/** All that an overview is drawn together from. */
export interface OverviewInput extends Pick<Overview, 'keep' | 'title' | 'middleC'> {
  readonly plan: Plan;
  readonly template: Template;
  /** Those of the plan, by id. */
  readonly instruments: ReadonlyMap<string, Instrument>;
  /** Usage of the cues of the plan. */
  readonly files: readonly FileUsage[];
  /** Of the cues of the plan, in the order of the reel. */
  readonly memory: ReelMemory;
  /** By instrument: notes that no articulation counts. */
  readonly otherNotes: ReadonlyMap<string, OtherNotes>;
  readonly check: Check;
  /** Which cues were checked. */
  readonly checked: OverviewProof['of'];
  /** None of its steps done. */
  readonly worklist: Worklist;
}
