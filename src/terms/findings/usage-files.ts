/** Files of usage, and putting several of them together. The finding's file is the usage file. */
export interface UsageFileFindings {
  /** Not JSON; `cut`: it ends in the middle. */
  'usage-file-json': { readonly cut: boolean };
  /** JSON, and no usage of instruments: the schema that it names, shortened, or null. */
  'usage-file-schema': { readonly schema: string | null };
  /** A value that keepset did not write: where it stands, and what belongs there (a word of its own). */
  'usage-file-value': { readonly where: string; readonly expected: string };
  /** Made with another template than the plan's. */
  'usage-file-template': Record<string, never>;
  /** An instrument that is `changed` since, `missing` in the usage, or not in the plan (`unknown`). */
  'usage-file-instrument': { readonly instrument: string; readonly state: string };
  /** A plan asks for more or other room around controllers than the usage can tell exactly. */
  'usage-file-room': { readonly wanted: number; readonly rooms: readonly number[] };
  /** Rare notes are to be found, and the usage holds a few places of each kind of note. */
  'usage-file-places': Record<string, never>;
  /** The plan splits files at their markers, and the usage does not. */
  'usage-file-split': Record<string, never>;
  /**
   * Two usage files that were not made alike; `by`: `controller-rooms`, `places`, `newest` or
   * `split`.
   */
  'usage-files-differ': { readonly other: string; readonly by: string };
  /** Files of one cue that were read in different runs, so that nothing tells their ports apart. */
  'usage-files-cue': { readonly cue: string; readonly files: readonly string[] };
  /** A cue file that was exported anew between two runs. */
  'usage-files-changed': { readonly path: string };
}
