/** Holding cues against a keep file. Each of these stands against a proof. */
export interface CheckFindings {
  /** The keep file was made with another template: routes and players may differ. */
  'check-template-changed': Record<string, never>;
  /** Its definition is not that of the plan: zones can't be compared. */
  'check-instrument-changed': { readonly instrument: string };
  /** A track plays an instrument that the keep file does not have. */
  'check-instrument-added': { readonly instrument: string };
  /** Copies that were not loaded by the plan and get notes now; what one of them takes by itself. */
  'check-copies-added': {
    readonly instrument: string;
    readonly copies: readonly string[];
    readonly bytes: number;
  };
  /** A copy chooses what it chose in no cue of the plan, and cues that were not checked may begin with that. */
  'check-choice-new': { readonly instrument: string; readonly copies: readonly string[] };
  /** The plan was made from more files of this cue: copies are told apart by them. */
  'check-files-missing': {
    readonly cue: string;
    readonly files: number;
    readonly planned: number;
  };
  /** A cue that has changed plays tracks that are audio already: the audio may be of the older version. */
  'check-print-changed': { readonly cue: string; readonly instruments: readonly string[] };
  /** Copies that chose articulations in the plan and choose none any more: cues that were not checked may have relied on it. */
  'check-choices-gone': { readonly instrument: string; readonly copies: readonly string[] };
}
