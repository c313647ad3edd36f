/** What `report` may find when it goes by a keep file. */
export interface ReportFindings {
  /** Instruments, players or machines of the template are not those of the keep file. */
  readonly 'report-template-changed': Record<string, never>;
  readonly 'report-instrument-changed': { readonly instrument: string };
  /** A cue of the plan is another one now, or is not there: the page shows what each of them needs. */
  readonly 'report-cue-changed': { readonly cue: string };
  readonly 'report-cue-gone': { readonly cue: string };
}
