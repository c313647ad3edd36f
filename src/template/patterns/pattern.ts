/**
 * A pattern for names: text with `*` and `{captures}`. Contract; see the functions below.
 */
export interface Pattern {
  /** As written. */
  readonly text: string;
  /** Literal pieces, folded; wildcards stand between them: one more piece than wildcards. */
  readonly pieces: readonly string[];
  /** Per wildcard, the capture's name, or null for `*`. */
  readonly captures: readonly (string | null)[];
}
