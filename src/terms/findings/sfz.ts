/**
 * Reading SFZ instruments. Places are line and column in the file that is named, which may be an
 * included one. Texts from files come shortened; `times`: how often it was found, in any of the files.
 */
export interface SfzFindings {
  /** Zero bytes, which text never has. */
  'sfz-not-text': Record<string, never>;
  /** `what` there is more of than `limit`; of text bytes, of a name, path or value characters. */
  'sfz-too-large': { readonly what: SfzAmount; readonly limit: number };
  /** An included file that is not there. */
  'sfz-include-missing': { readonly path: string };
  /** The files that include one another, the first one again at the end. */
  'sfz-include-cycle': { readonly chain: readonly string[] };
  'sfz-comment-open': Record<string, never>;
  /** Variables that stand for themselves; `text` as it stands. */
  'sfz-variable-endless': { readonly text: string };
  'sfz-encoding': { readonly encoding: 'windows-1252' | 'utf-16'; readonly times: number };
  'sfz-header-unknown': { readonly header: string; readonly times: number };
  /** What is no header, opcode or directive; the rest of its line was skipped. */
  'sfz-line-skipped': { readonly text: string; readonly times: number };
  /** `#` and what is neither a whole `#define` nor a whole `#include`; the rest of the line was skipped. */
  'sfz-directive-broken': { readonly text: string; readonly times: number };
  /** A line that starts with a single slash. */
  'sfz-slash-line': { readonly text: string; readonly times: number };
  'sfz-outside-header': { readonly opcode: string; readonly times: number };
  /** With its `$`, which may be all there is. */
  'sfz-variable-unknown': { readonly variable: string; readonly times: number };
  /** Blanks between the equals sign and the value. */
  'sfz-blank-value': { readonly opcode: string; readonly times: number };
  /** An include outside the folder of the instrument. */
  'sfz-include-outside': { readonly path: string; readonly times: number };
  /** An include that is there under a name which differs in capitals or in the form of its accents. */
  'sfz-include-case': { readonly path: string; readonly found: string; readonly times: number };
  /** A sound inside the file that could not be taken out of it. */
  'sfz-embedded-broken': { readonly sample: string; readonly times: number };
  'sfz-no-regions': Record<string, never>;
  /** Opcodes that no documentation names; the first of them, and how many more. */
  'sfz-opcodes-unknown': { readonly names: readonly string[]; readonly more: number };
  /** Places of some kind of remark that were left out. */
  'sfz-remarks-more': { readonly remarks: number };
}

/** What an instrument can have too much of. */
export type SfzAmount =
  | 'text'
  | 'includes'
  | 'depth'
  | 'path'
  | 'headers'
  | 'opcodes'
  | 'regions'
  | 'inherited'
  | 'variables'
  | 'variable-name'
  | 'value'
  | 'expansion';
