import type { PlanSettings } from '../keep/plan.ts';

/** What is different in the template of the smaller instruments. */
export interface TemplateChanges {
  /** Where the cues are, as seen from the output folder. */
  readonly cues: readonly string[];
  /** Ids of cues in playing order; null: as in the template. */
  readonly reel: readonly string[] | null;
  /** By instrument: where its smaller definition is, in the output folder. */
  readonly smaller: ReadonlyMap<string, string>;
  /** A path of the template, as seen from the output folder. */
  readonly moved: (path: string) => string;
  /** Ids of cues that lie in one file with planned ones and are none of the plan. */
  readonly leftOut: readonly string[];
  /** What the plan was made with: answers, room and pins of the command line among it. */
  readonly settings: PlanSettings;
}
