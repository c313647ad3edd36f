/** Where a text stops being JSON. */
export interface JsonFault {
  /** In UTF-16 units from 0. */
  readonly offset: number;
  /** The text is over there: what came before it was sound. */
  readonly cut: boolean;
}

type Wanted = 'value' | 'value or end' | 'key' | 'key or end' | 'colon' | 'comma or end';

const numberText = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const numberStart = /-?(?:(?:0|[1-9]\d*)(?:\.\d*)?(?:[eE][+-]?\d*)?)?/y;
const literal = /true|false|null/y;
const space = /[ \t\n\r]*/y;
const wordLetters = /[a-z]*/y;

const lengthAt = (pattern: RegExp, text: string, at: number): number => {
  pattern.lastIndex = at;
  return pattern.exec(text)?.[0].length ?? 0;
};

/**
 * Finds where a text stops being JSON (RFC 8259); null where it is JSON. What a JavaScript engine
 * says of it names no place one could rely on. It goes through lists in lists without calling itself.
 */
export const jsonFault = (text: string): JsonFault | null => {
  const open: ('{' | '[')[] = [];
  let at = 0;
  let wanted = 'value' as Wanted;
  const fault = (offset: number): JsonFault => ({ offset, cut: offset >= text.length });
  for (;;) {
    at += lengthAt(space, text, at);
    if (wanted === 'comma or end' && open.length === 0) {
      return at < text.length ? fault(at) : null;
    }
    const character = text[at];
    const inside = open.at(-1);
    const closes = character === (inside === '{' ? '}' : ']');
    if (character === undefined) return fault(at);
    if (wanted === 'colon') {
      if (character !== ':') return fault(at);
      at++;
      wanted = 'value';
    } else if (wanted === 'comma or end') {
      if (closes) {
        open.pop();
        wanted = 'comma or end';
      } else if (character === ',') wanted = inside === '{' ? 'key' : 'value';
      else return fault(at);
      at++;
    } else if (wanted.endsWith('or end') && closes) {
      open.pop();
      at++;
      wanted = 'comma or end';
    } else if (wanted.startsWith('key')) {
      if (character !== '"') return fault(at);
      const end = textEnd(text, at);
      if (typeof end !== 'number') return end;
      at = end;
      wanted = 'colon';
    } else if (character === '{' || character === '[') {
      open.push(character);
      at++;
      wanted = character === '{' ? 'key or end' : 'value or end';
    } else {
      const end = scalarEnd(text, at, character);
      if (typeof end !== 'number') return end;
      at = end;
      wanted = 'comma or end';
    }
  }
};

const scalarEnd = (text: string, at: number, character: string): number | JsonFault => {
  if (character === '"') return textEnd(text, at);
  const isWord = character >= 'a' && character <= 'z';
  const length = lengthAt(isWord ? literal : numberText, text, at);
  // What has only begun: a sound number or word that the end of the file has cut off.
  const begun = at + lengthAt(isWord ? wordLetters : numberStart, text, at);
  const isCut =
    begun === text.length &&
    begun > at + length &&
    (!isWord || ['true', 'false', 'null'].some((word) => word.startsWith(text.slice(at))));
  if (isCut) return { offset: begun, cut: true };
  return length > 0 ? at + length : { offset: at, cut: false };
};

/** The place behind a text in quotation marks that begins at `from`. */
const textEnd = (text: string, from: number): number | JsonFault => {
  for (let at = from + 1; at < text.length; at++) {
    const character = text[at]!;
    if (character === '"') return at + 1;
    if (character < ' ') return { offset: at, cut: false };
    if (character !== '\\') continue;
    const escape = text[++at];
    if (escape === undefined) break;
    if (escape === 'u') {
      for (let digit = 0; digit < 4; digit++) {
        const next = text[++at];
        if (next === undefined) return { offset: text.length, cut: true };
        if (!/[\dA-Fa-f]/.test(next)) return { offset: at, cut: false };
      }
    } else if (!'"\\/bfnrt'.includes(escape)) return { offset: at, cut: false };
  }
  return { offset: text.length, cut: true };
};
