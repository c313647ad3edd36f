/** Reading outlines. Places are line and column. Texts come shortened. */
export interface OutlineFindings {
  /** `?` that are still to be filled in. */
  'outline-open': { readonly count: number };
  /** Lengths without a rate, bits or channels: in how many articulations each was assumed. */
  'outline-assumed': {
    readonly articulations: number;
    readonly rate: number;
    readonly bits: number;
    readonly channels: number;
  };
  /**
   * Neither a length nor a measured size. `more` articulations are not listed. `parts` says of each listed
   * one what has none, with spaces between: `note`, `release`, `legato`; empty where all of it has none.
   */
  'outline-size-unknown': {
    readonly articulations: readonly string[];
    readonly parts: readonly string[];
    readonly more: number;
  };
  /** Nothing says what selects them. */
  'outline-no-switch': { readonly articulations: readonly string[]; readonly more: number };
  'outline-no-articulations': Record<string, never>;
  'outline-too-many-zones': { readonly zones: number; readonly limit: number };
  /** Ways in which its zones start; not counted further than the limit. */
  'outline-too-many-starts': { readonly limit: number };
  'outline-too-large': { readonly bytes: number; readonly limit: number };
  /** No articulation of this name; `known`: the first few that there are. */
  'outline-unknown-articulation': {
    readonly name: string;
    readonly near: string | null;
    readonly known: readonly string[];
  };
  /** Articulations that are each like the next; the first few. */
  'outline-like-circle': { readonly articulations: readonly string[] };
  /** A name that readings of the display have for something else. */
  'outline-name-taken': { readonly name: string };
  /**
   * A switch beside what selects the articulation already: a place in the row of switches (`row`), or the
   * player by itself (`player`).
   */
  'outline-switch-twice': { readonly articulation: string; readonly reason: string };
  /** A name in the row of switches that no key is left for. */
  'outline-row-beyond': { readonly name: string; readonly example: string };
  /** As many takes borrowed as there are, or more. */
  'outline-borrow': { readonly count: number; readonly borrow: number };
}
