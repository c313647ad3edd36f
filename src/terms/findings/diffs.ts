/** Holding two keep files against each other. */
export interface DiffFindings {
  /** The second was made with another template, or with none. */
  'diff-templates-differ': { readonly from: string; readonly to: string };
  /**
   * What is to be loaded and unloaded of these instruments is known in zones, and not in bytes. Why:
   * `no-template` here; a `template` that is not sound; one in which the instrument is `unlisted`; an
   * `unreadable` definition; one that has `changed` since; or a player or readings that give other
   * `figures` than one of the files.
   */
  'diff-without-bytes': { readonly reason: string; readonly instruments: readonly string[] };
}
