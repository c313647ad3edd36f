/** What `primer` may find. */
export interface PrimerFindings {
  /** A copy that the base export has no track for. */
  'primer-track-added': { readonly track: string; readonly cue: string };
  /** Zones that stay and that it does not load. */
  'primer-not-primed': { readonly zones: number; readonly instruments: readonly string[] };
  /** Cues are damaged, and nobody has accepted it. */
  'primer-damaged': { readonly cues: readonly string[] };
  /** Cues look as if something were missing, and nobody has said that they are whole. */
  'primer-partial': { readonly cues: readonly string[] };
  /** Tracks with notes reach no instrument, and nobody has accepted it. */
  'primer-unmapped': { readonly tracks: number };
  /** The template, an instrument or a cue is not what the plan was made with. */
  'primer-template-changed': Record<string, never>;
  'primer-instrument-changed': { readonly instrument: string };
  'primer-cue-changed': { readonly cue: string };
  /** The keep file does not hold what its cues need. */
  'primer-keep-lacks': { readonly instrument: string; readonly zones: number };
  /** Nothing stays, so there is nothing to load. */
  'primer-nothing': Record<string, never>;
  /** No export can give it its tracks. */
  'primer-no-base': { readonly cue: string | null };
  /** Played back, it loads what does not stay, whatever is taken out of it. */
  'primer-unmet': Record<string, never>;
  /** Tracks of a file that is verified which no rule takes. */
  'primer-tracks-unmapped': { readonly tracks: readonly string[] };
}
