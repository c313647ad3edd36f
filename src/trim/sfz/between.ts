import {
  dollar,
  endOfBlanks,
  endOfCode,
  endOfLine,
  endOfName,
  endOfWord,
  hash,
  isLineEnd,
  lessThan,
  slash,
  startsComment,
} from '../../instruments/sfz/text/characters.ts';

/** What may stand where no opcode does. */
export interface Token {
  readonly kind: 'end' | 'line-end' | 'comment' | 'header' | 'define' | 'include' | 'junk';
  readonly start: number;
  readonly end: number;
  /** A `#define` without a value: the next word on its line would become it. */
  readonly open: boolean;
}

/**
 * The next thing in a text behind blanks, by the rules of the reader: it must not be asked where an
 * opcode stands. Junk is what the reader skips.
 */
export const tokenAt = (text: string, from: number): Token => {
  const start = endOfBlanks(text, from);
  const token = (kind: Token['kind'], end: number, open = false): Token => {
    return { kind, start, end, open };
  };
  const code = text.charCodeAt(start);
  if (start >= text.length) return token('end', start);
  if (isLineEnd(code)) return token('line-end', endOfLineEnd(text, start));
  if (startsComment(text, start)) return token('comment', endOfComment(text, start));
  if (code === slash) return token('junk', endOfLine(text, start));
  if (code === lessThan) {
    const end = endOfName(text, start + 1);
    if (end > start + 1 && text[end] === '>') return token('header', end + 1);
  }
  if (code === hash) {
    const wordEnd = endOfName(text, start + 1);
    const next = endOfBlanks(text, wordEnd);
    const word = wordEnd - start > 8 ? '' : text.slice(start + 1, wordEnd);
    if (word === 'include' && text[next] === '"') {
      const close = endOfQuote(text, next + 1);
      if (close !== null) return token('include', close + 1);
    }
    if (word === 'define' && text.charCodeAt(next) === dollar) {
      const nameEnd = endOfName(text, next + 1);
      const valueFrom = endOfBlanks(text, nameEnd);
      const end = endOfWord(text, valueFrom);
      if (nameEnd > next + 1) return token('define', Math.max(nameEnd, end), end === valueFrom);
    }
  }
  return token('junk', endOfCode(text, start));
};

/** Behind CRLF, LF or CR. */
export const endOfLineEnd = (text: string, at: number): number =>
  text.startsWith('\r\n', at) ? at + 2 : at + 1;

const endOfComment = (text: string, at: number): number => {
  if (text.charCodeAt(at + 1) === slash) return endOfLine(text, at);
  const close = text.indexOf('*/', at + 2);
  return close < 0 ? text.length : close + 2;
};

/** Where a quote is closed on its line. */
const endOfQuote = (text: string, from: number): number | null => {
  let at = from;
  while (at < text.length && text[at] !== '"' && !isLineEnd(text.charCodeAt(at))) at += 1;
  return text[at] === '"' ? at : null;
};
