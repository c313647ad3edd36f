/** What `why` could not look at. */
export interface WhyFindings {
  /** Something is missing that tells what zones answer to, or what came nearest to needing them. */
  'why-without-cues': {
    readonly instrument: string;
    readonly missing: 'template' | 'instrument' | 'cues';
  };
  /** The template is not that of the plan: tracks may go elsewhere, so no cue was played. */
  'why-template-changed': Record<string, never>;
  /** Its definition is not that of the plan: its zones may be others. */
  'why-instrument-changed': { readonly instrument: string };
  /** Cues that are not those of the plan, or not there at all: none of them was looked at. */
  'why-cues-changed': { readonly changed: readonly string[]; readonly absent: readonly string[] };
}
