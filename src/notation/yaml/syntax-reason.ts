import type { YAMLError } from 'yaml';
import type { Scan } from './scan.ts';

/** What is wrong with the YAML, as a code, and where it is best mended. */
export interface SyntaxFault {
  readonly reason: string;
  readonly offset: number;
  /** From here on the reader has lost its place: what it says next follows from this. */
  readonly isLost: boolean;
}

/** As much of a line as is looked at. */
const longestLine = 1000;

/** The start of the line that `offset` is on. */
const lineStart = (text: string, offset: number): number => text.lastIndexOf('\n', offset - 1) + 1;

/** The first character on a line that is no blank. */
const firstOnLine = (text: string, start: number): number => {
  let at = start;
  while (text[at] === ' ' || text[at] === '\t') at += 1;
  return at;
};

const hasTab = (text: string, offset: number): boolean => {
  const start = lineStart(text, offset);
  return text.slice(start, firstOnLine(text, start)).includes('\t');
};

const tabOn = (text: string, offset: number): number => text.indexOf('\t', lineStart(text, offset));

/** Codes of the YAML reader that mean one thing. */
const plainReasons: ReadonlyMap<string, string> = new Map([
  ['MULTILINE_IMPLICIT_KEY', 'colon-missing'],
  ['BLOCK_IN_FLOW', 'comma-missing'],
  ['BAD_SCALAR_START', 'start'],
  ['BAD_DQ_ESCAPE', 'escape'],
  ['KEY_OVER_1024_CHARS', 'key-long'],
]);

/** The others by what the reader says, the first that fits. */
const sayings: readonly (readonly [saying: RegExp, reason: string])[] = [
  [/closing .quote/u, 'quote-open'],
  [/end with a/u, 'bracket-open'],
  [/same column|Sequence item without/u, 'indent'],
  [/Missing ,/u, 'comma-missing'],
  [/Unexpected (?:,|empty item)/u, 'comma-extra'],
  [/need to be followed by map values/u, 'colon-missing'],
  [/Comments must be separated/u, 'comment-close'],
  [/flow-(?:map|seq)-end.* in YAML stream|Unexpected [\]}]/u, 'bracket-extra'],
  [/at node end|in YAML stream/u, 'after-value'],
];

const reasonOf = ({ code, message }: YAMLError): string =>
  plainReasons.get(code) ?? sayings.find(([saying]) => saying.test(message))?.[1] ?? 'other';

const found = (reason: string, offset: number, isLost = false): SyntaxFault => ({
  reason,
  offset,
  isLost,
});

/** Where a dash lacks the space behind it on the line of `offset`; null: it does not. */
const tightDash = (text: string, offset: number): number | null => {
  const first = firstOnLine(text, lineStart(text, offset));
  return text[first] === '-' && /[^\s-]/u.test(text[first + 1] ?? ' ') ? first : null;
};

/** Where a question mark stands alone as a value on the line of `offset`; null: nowhere. */
const loneQuestionMark = (text: string, offset: number): number | null => {
  const start = lineStart(text, offset);
  const line = /^[^\r\n]*/u.exec(text.slice(start, start + longestLine))![0];
  const mark = /(?:[:,[]|^ *-) *\?(?= *(?:[,}\]]| #|$))/u.exec(line);
  return mark === null ? null : start + mark.index + mark[0].length - 1;
};

/** A controller and its values begin here, outside quotation marks: `cc 32: 0-20`. */
const isController = (text: string, offset: number): boolean =>
  /^cc ?\d{1,3} *: /iu.test(text.slice(offset, offset + 20));

/** A value that holds keys where it can't. */
const keysInValue = (text: string, offset: number, runsOn: boolean): SyntaxFault => {
  const dash = tightDash(text, offset);
  if (dash !== null) return found('dash-space', dash);
  if (!runsOn) return found('colon-twice', offset);
  // The line below starts further right and so became part of this value.
  return found('indent', firstOnLine(text, text.indexOf('\n', offset) + 1));
};

/**
 * What an error of the YAML reader is to a person, from its code and, where the code covers several
 * mistakes, its wording.
 *
 * @param runsOn the value at this place runs on to the next line
 */
export const syntaxFault = (
  error: YAMLError,
  text: string,
  { openQuote, openBracket }: Scan,
  runsOn: boolean,
): SyntaxFault => {
  const [offset] = error.pos;
  const mark = loneQuestionMark(text, offset);
  if (mark !== null) return found('question-mark', mark);
  if (error.code === 'TAB_AS_INDENT') return found('tab', tabOn(text, offset));
  if (error.code === 'BLOCK_AS_IMPLICIT_KEY') return keysInValue(text, offset, runsOn);
  // A text that begins with | or >, which is told where the sign has been read.
  if (error.message.startsWith('Block scalar header')) return found('start', offset - 1);
  if (error.code === 'BLOCK_IN_FLOW' && isController(text, offset)) {
    return found('colon-in-text', offset);
  }
  const reason = reasonOf(error);
  if (reason === 'quote-open') return found(reason, openQuote ?? offset, true);
  if (reason === 'bracket-open') {
    return hasTab(text, offset)
      ? found('tab', tabOn(text, offset), true)
      : found(reason, openBracket ?? offset, true);
  }
  if (reason === 'indent') return found(reason, firstOnLine(text, lineStart(text, offset)));
  return found(reason, offset, error.message.includes('in YAML stream'));
};
