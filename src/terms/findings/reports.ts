/** What `report` may find: when it goes by a keep file, and of its page. */
export interface ReportFindings {
  /** Instruments, players or machines of the template are not those of the keep file. */
  readonly 'report-template-changed': Record<string, never>;
  readonly 'report-instrument-changed': { readonly instrument: string };
  /** A cue of the plan is another one now, or is not there: the page shows what each of them needs. */
  readonly 'report-cue-changed': { readonly cue: string };
  readonly 'report-cue-gone': { readonly cue: string };
  /** Made for a person, and larger than it should be, whatever is left out: `most` in bytes. */
  readonly 'report-page-large': { readonly most: number };
}
