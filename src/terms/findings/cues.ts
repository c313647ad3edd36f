/** Cues, and the files and folders they come from. */
export interface CueFindings {
  'cue-damaged': { readonly tracks: number };
  'cue-several-files': { readonly cue: string; readonly files: number };
  /** The template's reel names a cue that is not among the files. */
  'reel-cue-missing': { readonly cue: string; readonly near: string | null };
  'cue-versions': { readonly cue: string; readonly versions: readonly string[] };
  /** Versions that were left aside on the user's word: `newest` alone counts. */
  'cue-versions-left': {
    readonly cue: string;
    readonly newest: string;
    readonly older: readonly string[];
  };
  /** Files were to be split at their markers, and this one is one cue. */
  'cue-not-split': { readonly reason: 'no-markers' | 'several-timelines' | 'too-many' };
  /** Something that other exports hold is not there. */
  'cue-looks-partial': {
    readonly cue: string;
    readonly reason: 'tracks-of-version' | 'tracks-of-reel' | 'markers';
    /** The first names of tracks that are not there, and how many there are in all. */
    readonly tracks: readonly string[];
    readonly missing: number;
    /** The version that has the tracks. */
    readonly version: string | null;
    /** From the end of the music to the last marker. */
    readonly seconds: number | null;
  };
  'cues-none': { readonly where: string };
  'cue-without-notes': Record<string, never>;
  'path-missing': Record<string, never>;
  'path-not-a-file': Record<string, never>;
  'path-unreadable': { readonly reason: string };
  'path-changed-while-read': Record<string, never>;
  'output-unwritable': { readonly reason: string };
  'output-exists': Record<string, never>;
}
