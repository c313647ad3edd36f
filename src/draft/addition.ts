/** What is added at the end of a list, or of keys. */
export interface Addition {
  /** Without the `#`. */
  readonly comments: readonly string[];
  /** Between brackets or braces: `{ track: "Hn", instrument: hn }`, or `hn: { ... }`. */
  readonly inFlow: string;
  /** In a block, comments and all. */
  readonly inBlock: (indent: number) => readonly string[];
}
