const tab = 0x09;
const lineFeed = 0x0a;
const carriageReturn = 0x0d;
const space = 0x20;
export const slash = 0x2f;
const star = 0x2a;
export const hash = 0x23;
export const dollar = 0x24;
export const lessThan = 0x3c;
export const equalsSign = 0x3d;

/** Space and tab; no other character divides opcodes of a line. */
export const isBlank = (code: number): boolean => code === space || code === tab;

export const isLineEnd = (code: number): boolean => code === lineFeed || code === carriageReturn;

/** Letters of ASCII, figures and the low line: names of headers, opcodes and variables. */
export const isNameSign = (code: number): boolean =>
  (code >= 0x61 && code <= 0x7a) ||
  (code >= 0x30 && code <= 0x39) ||
  code === 0x5f ||
  (code >= 0x41 && code <= 0x5a);

/** `//` or an opening comment. */
export const startsComment = (text: string, at: number): boolean => {
  if (text.charCodeAt(at) !== slash) return false;
  const next = text.charCodeAt(at + 1);
  return next === slash || next === star;
};

export const endOfBlanks = (text: string, from: number): number => {
  let at = from;
  while (isBlank(text.charCodeAt(at))) at += 1;
  return at;
};

export const endOfName = (text: string, from: number): number => {
  let at = from;
  while (isNameSign(text.charCodeAt(at))) at += 1;
  return at;
};

/** The end of an opcode's name, which variables may be part of. */
export const endOfOpcodeName = (text: string, from: number): number => {
  let at = from;
  for (;;) {
    const code = text.charCodeAt(at);
    if (!isNameSign(code) && code !== dollar) return at;
    at += 1;
  }
};

export const endOfLine = (text: string, from: number): number => {
  let at = from;
  while (at < text.length && !isLineEnd(text.charCodeAt(at))) at += 1;
  return at;
};

/** The end of a line or where a comment starts on it. */
export const endOfCode = (text: string, from: number): number => {
  let at = from;
  while (at < text.length && !isLineEnd(text.charCodeAt(at)) && !startsComment(text, at)) at += 1;
  return at;
};

/** The end of one word: blanks, line ends and comments stop it. */
export const endOfWord = (text: string, from: number): number => {
  let at = from;
  for (; at < text.length; at += 1) {
    const code = text.charCodeAt(at);
    if (isBlank(code) || isLineEnd(code) || startsComment(text, at)) break;
  }
  return at;
};
