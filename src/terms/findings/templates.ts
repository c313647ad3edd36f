/**
 * Where a key stands, from the top: keys, and places in lists counted from 0.
 *
 * @example ['routes', 2, 'track']
 */
export type KeyPath = readonly (string | number)[];

/** Reading `keepset.yaml` and `tracks.csv`. Places are line and column. */
export interface TemplateFindings {
  'template-empty': Record<string, never>;
  'template-too-large': { readonly bytes: number; readonly limit: number };
  /** Not UTF-8. `encoding`: `utf-16` or `unknown`. */
  'template-encoding': { readonly encoding: string };
  /**
   * Not YAML. `reason`: what is wrong, a code of its own; `text`: what stands there, shortened.
   */
  'template-yaml': { readonly reason: string; readonly text: string };
  /** An alias, an anchor, a tag or a merge key, which this file may not hold (`kind`). */
  'template-shorthand': { readonly kind: string; readonly text: string };
  'template-too-deep': { readonly levels: number };
  /** The file holds a `list` or a `text` where keys belong. */
  'template-not-keys': { readonly shape: string };
  /** A key twice in one place; the first is at `line`. */
  'template-key-repeated': { readonly key: string; readonly line: number };
  /** A key that is empty (`empty`) or not a single text (`odd`). */
  'template-key-odd': { readonly reason: string };
  'template-key-unknown': {
    readonly key: string;
    /** What it stands in. */
    readonly within: KeyPath;
    readonly near: string | null;
    readonly known: readonly string[];
    readonly example: string;
  };
  'template-key-missing': {
    readonly key: string;
    readonly within: KeyPath;
    readonly example: string;
  };
  /** A key with nothing after it. */
  'template-key-bare': { readonly path: KeyPath; readonly example: string };
  /** A key that may only stand together with another, or with a value of another (`needs`). */
  'template-key-alone': {
    readonly path: KeyPath;
    readonly needs: string;
    readonly example: string;
  };
  'template-value': {
    readonly path: KeyPath;
    /** What belongs there: a word of its own. */
    readonly expected: string;
    /** The values that can be, or the lowest and the highest; often none. */
    readonly options: readonly string[];
    /** What stands there, shortened. */
    readonly found: string;
    /** How it stands there: `text`, `list`, `keys`, or `braces` for what looks like a capture. */
    readonly shape: string;
    readonly example: string;
  };
  /** `unit`: the one that is likely meant. */
  'template-unit-missing': {
    readonly path: KeyPath;
    readonly found: string;
    readonly unit: string;
  };
  /** An id that is `empty`, has `blanks` at its ends, or holds what can't be shown (`unprintable`). */
  'template-id': { readonly kind: string; readonly id: string; readonly reason: string };
  /** `kind`: `machine`, `player` or `instrument`. */
  'template-undeclared': {
    readonly kind: string;
    readonly id: string;
    readonly near: string | null;
    /** The first few that are declared. */
    readonly declared: readonly string[];
  };
  /** An instrument that does not say which of several machines or players it is for. */
  'template-unassigned': {
    readonly kind: string;
    readonly instrument: string;
    readonly declared: readonly string[];
  };
  /** In bytes. */
  'template-reserve': {
    readonly machine: string;
    readonly memory: number;
    readonly reserve: number;
  };
  /** An instrument with no definition, or with several. */
  'template-source': {
    readonly instrument: string;
    readonly given: readonly string[];
    readonly example: string;
  };
  /** A kind of instrument that this version does not read: `outline`. */
  'template-source-later': { readonly instrument: string; readonly kind: string };
  /** The same `cue`, `pin`, `name`, `reading` or `heading` twice; the first is at `line`. */
  'template-repeated': { readonly kind: string; readonly text: string; readonly line: number };
  'template-settle-damage': Record<string, never>;
  /** The table of tracks can't be read: `reason` is the code of another finding. */
  'template-tracks': { readonly path: string; readonly reason: string };
  /** A key that changes nothing here; `reason`: why, a code of its own. */
  'template-key-idle': { readonly path: KeyPath; readonly reason: string };
  /** A machine or a player (`kind`) that no instrument is for. */
  'template-unused': { readonly kind: string; readonly id: string };
  /** Faults beyond those that are shown. */
  'template-more-faults': { readonly more: number };
}
