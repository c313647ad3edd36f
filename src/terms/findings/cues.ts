/** Cues, and the files and folders they come from. */
export interface CueFindings {
  'cue-damaged': { readonly tracks: number };
  'cue-several-files': { readonly cue: string; readonly files: number };
  /** The template's reel names a cue that is not among the files. */
  'reel-cue-missing': { readonly cue: string; readonly near: string | null };
  'cue-versions': { readonly cue: string; readonly versions: readonly string[] };
  'cues-none': { readonly where: string };
  'cue-without-notes': Record<string, never>;
  'path-missing': Record<string, never>;
  'path-not-a-file': Record<string, never>;
  'path-unreadable': { readonly reason: string };
  'path-changed-while-read': Record<string, never>;
  'output-unwritable': { readonly reason: string };
  'output-exists': Record<string, never>;
}
