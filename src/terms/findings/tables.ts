/**
 * Reading zone tables. Places are line and column. Texts from cells come shortened; `line` is that of
 * the other row a fault is about.
 */
export interface TableFindings {
  /** The file of a spreadsheet program instead of a table saved from it. */
  'table-spreadsheet': Record<string, never>;
  'table-not-text': Record<string, never>;
  /** `limit`: bytes. */
  'table-too-large': { readonly limit: number };
  'table-quote-open': Record<string, never>;
  'table-quote-inside': Record<string, never>;
  'table-empty': Record<string, never>;
  'table-only-heading': Record<string, never>;
  /** Neither UTF-8 nor marked as UTF-16. */
  'table-encoding': Record<string, never>;
  /**
   * `column`: its name, or several of which one would do. `likely`: the heading there is that probably
   * means the column `meant`.
   */
  'table-column-missing': {
    readonly column: string;
    readonly present: readonly string[];
    readonly likely: string | null;
    readonly meant: string;
  };
  'table-column-twice': { readonly column: string };
  /** Headings that mean nothing here; `more` that are not listed. */
  'table-columns-unknown': { readonly columns: readonly string[]; readonly more: number };
  /** A heading that means nothing here and is nearly that of a column. */
  'table-column-near': { readonly column: string; readonly near: string };
  /** Text behind the last column that has a heading. */
  'table-cells-beyond': { readonly value: string; readonly headings: number };
  /** A cell that cannot be read as what its column holds. */
  'table-cell': { readonly column: string; readonly value: string };
  /** Microphones divided by commas or semicolons; `instead`: the same names, divided as they should be. */
  'table-microphones-divided': { readonly value: string; readonly instead: string };
  /** A number where microphones are named. */
  'table-microphones-counted': { readonly value: string };
  'table-cell-missing': { readonly column: string };
  /** Characters. */
  'table-name-too-long': {
    readonly column: string;
    readonly length: number;
    readonly limit: number;
  };
  /** Velocity 0, or one controller in two places at once. */
  'table-never-sounds': { readonly column: string; readonly value: string };
  'table-size-missing': { readonly columns: readonly string[] };
  'table-size-twice': { readonly columns: readonly string[] };
  /** `limit`: bytes. */
  'table-sample-too-large': { readonly value: string; readonly limit: number };
  /** A list of samples that fits neither one nor each of the row's zones. */
  'table-sample-count': { readonly samples: number; readonly zones: number };
  /** One name with two sizes in bytes. */
  'table-sample-differs': {
    readonly sample: string;
    readonly bytes: number;
    readonly other: number;
    readonly line: number;
  };
  'table-key-twice': { readonly key: string; readonly line: number };
  /** A switch in a row that belongs to every articulation. */
  'table-switch-alone': { readonly switch: string };
  'table-switch-differs': {
    readonly articulation: string;
    readonly switch: string;
    readonly other: string;
    readonly line: number;
  };
  'table-too-many-zones': { readonly zones: number; readonly limit: number };
  /** Rows in frames or seconds with empty cells, and in how many of them each was assumed. */
  'table-assumed': {
    readonly rows: number;
    readonly rate: number;
    readonly bits: number;
    readonly channels: number;
  };
  /**
   * Zones of more keys than one sample is usually stretched over: how many, and the widest, with key
   * names as the table writes them.
   */
  'table-wide-zones': {
    readonly zones: number;
    readonly limit: number;
    readonly lo: number;
    readonly hi: number;
    readonly from: string;
    readonly to: string;
  };
  /**
   * Velocities between two layers that none answers: within the list of one row, or between rows of an
   * articulation with the same keys. `more` such gaps in the table.
   */
  'table-velocity-gap': {
    readonly lo: number;
    readonly hi: number;
    readonly within: 'row' | 'articulation';
    readonly more: number;
  };
  /** Several articulations and no switch; `more` that are not listed, here and below. */
  'table-no-switch': { readonly articulations: readonly string[]; readonly more: number };
  /** Articulations without a switch where others have one. */
  'table-always-sounds': { readonly articulations: readonly string[]; readonly more: number };
  'table-switch-shared': { readonly articulations: readonly string[]; readonly more: number };
  /** Keyswitches that lie inside the keys of every zone. */
  'table-switch-plays': { readonly keys: readonly string[]; readonly more: number };
}
