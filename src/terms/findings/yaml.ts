/**
 * Where a key stands, from the top: keys, and places in lists counted from 0.
 *
 * @example ['routes', 2, 'track']
 */
export type KeyPath = readonly (string | number)[];

/** What people write in YAML. */
export type YamlDocument = 'template' | 'outline';

/** Reading a template or an outline, as far as both are keys and values in YAML. */
export interface YamlFindings {
  'yaml-empty': { readonly document: YamlDocument };
  /** Not UTF-8. `encoding`: `utf-16` or `unknown`. */
  'yaml-encoding': { readonly encoding: string };
  /**
   * Not YAML. `reason`: what is wrong, a code of its own; `text`: what stands there, shortened.
   */
  'yaml-syntax': { readonly reason: string; readonly text: string };
  /** An alias, an anchor, a tag or a merge key, which this file may not hold (`kind`). */
  'yaml-shorthand': { readonly kind: string; readonly text: string };
  'yaml-too-deep': { readonly levels: number };
  /** The file holds a `list` or a `text` where keys belong. */
  'yaml-not-keys': { readonly document: YamlDocument; readonly shape: string };
  /** A key twice in one place; the first is at `line`. */
  'yaml-key-repeated': { readonly key: string; readonly line: number };
  /** A key that is empty (`empty`) or not a single text (`odd`). */
  'yaml-key-odd': { readonly reason: string };
  'yaml-key-unknown': {
    readonly key: string;
    /** What it stands in. */
    readonly within: KeyPath;
    readonly near: string | null;
    readonly known: readonly string[];
    readonly example: string;
  };
  'yaml-key-missing': {
    readonly key: string;
    readonly within: KeyPath;
    readonly example: string;
  };
  /** A key with nothing after it. */
  'yaml-key-bare': { readonly path: KeyPath; readonly example: string };
  'yaml-value': {
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
  'yaml-unit-missing': {
    readonly path: KeyPath;
    readonly found: string;
    readonly unit: string;
  };
  /** The same thing (`kind`: a word of its own) twice; the first is at `line`. */
  'yaml-repeated': { readonly kind: string; readonly text: string; readonly line: number };
  /** Faults beyond those that are shown. */
  'yaml-more-faults': { readonly more: number };
}
