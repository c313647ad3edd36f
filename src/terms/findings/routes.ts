/**
 * Rules that send parts to instruments, and the table of tracks. `rule`: as the user wrote it, and texts
 * from cells, shortened. `field`: a key of a rule in the code's own spelling.
 */
export interface RouteFindings {
  /** Tracks with notes that no route takes, by name; `null` is a track without one. */
  'part-unmapped': {
    readonly cue: string;
    readonly tracks: readonly (string | null)[];
    readonly notes: number;
  };
  /** A rule that no part of any cue matches. */
  'route-unused': { readonly rule: string };
  /** Rows of a table that no part of any cue matches, of how many, and the first few. */
  'rows-unused': { readonly rows: number; readonly of: number; readonly first: readonly string[] };
  /** A rule that matches parts, but earlier ones take them all, first `by` at `line` of file `in`. */
  'route-shadowed': {
    readonly rule: string;
    readonly by: string;
    readonly in: string;
    readonly line: number;
  };
  /** A route names an articulation that its instrument does not have, or has in several `matches`. */
  'route-articulation': {
    readonly instrument: string;
    readonly articulation: string;
    readonly tracks: readonly string[];
    readonly matches: number;
    readonly near: string | null;
  };
  /** Notes that transposing puts outside 0-127: no player gets them. */
  'notes-out-of-range': {
    readonly cue: string;
    readonly track: string | null;
    readonly notes: number;
  };
  /** The patterns of one join match in several files of a cue: each file keeps a copy of its own. */
  /** A member of a join has the name of no track, while other members have. */
  'join-idle': { readonly rule: string; readonly pattern: string };
  'join-across-files': { readonly cue: string; readonly rule: string };

  /** `problem`: what a pattern has wrong, a code of its own; `column` counts inside the pattern. */
  'route-pattern': {
    readonly field: string;
    readonly pattern: string;
    readonly problem: string;
    readonly column: number;
  };
  'route-without-tracks': Record<string, never>;
  'route-tracks-and-join': Record<string, never>;
  /** A join of fewer than two patterns. */
  'route-join-one': { readonly pattern: string };
  /** Two patterns of one join that capture different things. */
  'route-join-captures': { readonly first: string; readonly second: string };
  /** A text that mentions a capture which a pattern of the rule does not have. */
  'route-capture': { readonly field: string; readonly capture: string; readonly pattern: string };
  /** Neither an instrument nor `ignore`. */
  'route-without-outcome': { readonly rule: string };
  /** `ignore` together with something that needs an instrument. */
  'route-ignore-and': { readonly rule: string; readonly field: string };
  'route-instrument-twice': { readonly rule: string; readonly instrument: string };
  /** A number outside of `lo` to `hi`, or not whole where it has to be. */
  'route-number': {
    readonly field: string;
    readonly value: number;
    readonly lo: number;
    readonly hi: number;
  };

  /** `problem`: `quote-open`, `quote-inside`, `too-large` or `binary`. */
  'tracks-unreadable': { readonly problem: string };
  /** Neither UTF-8 nor marked as UTF-16. */
  'tracks-encoding': Record<string, never>;
  /** No rows below the headings, or no headings either. */
  'tracks-empty': Record<string, never>;
  'tracks-too-many': { readonly rows: number; readonly limit: number };
  /** `columns` renames a column that there is not. */
  'tracks-renaming': { readonly column: string; readonly near: string | null };
  /** `heading`: what the column is called in the file. */
  'tracks-heading-missing': {
    readonly column: string;
    readonly heading: string;
    readonly present: readonly string[];
  };
  'tracks-heading-twice': { readonly heading: string };
  /** A heading that means nothing here and is nearly that of a column. */
  'tracks-heading-near': { readonly heading: string; readonly near: string };
  /** Headings that mean nothing here; `more` that are not listed. */
  'tracks-headings-unknown': { readonly headings: readonly string[]; readonly more: number };
  /** A cell that can't be read; `expects`: `number`, `controllers`, `yes-no` or `instruments`. */
  'tracks-cell': { readonly column: string; readonly cell: string; readonly expects: string };
  /** Text where no column is. */
  'tracks-cell-extra': { readonly cell: string };
  /** Errors beyond those that are listed. */
  'tracks-more-errors': { readonly more: number };
}
