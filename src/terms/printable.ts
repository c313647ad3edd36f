/**
 * What must not reach a terminal from a file's name or text: controls (an escape sequence can move
 * the cursor or rename the window), invisible format characters (a right-to-left override shows
 * `gpj.exe` as `exe.jpg`), halves of surrogate pairs, and line and paragraph separators. Unicode
 * general categories Cc, Cf, Cs, Zl, Zp.
 */
const unprintable = /[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu;

const visible = (character: string): string => {
  const code = character.codePointAt(0) ?? 0;
  const hex = code.toString(16);
  if (code <= 0xff) return `\\x${hex.padStart(2, '0')}`;
  return code <= 0xffff ? `\\u${hex.padStart(4, '0')}` : `\\u{${hex}}`;
};

/**
 * A text from a file as it may be shown to a person: every character that can act on a terminal is
 * written out.
 *
 * @example printable('Vln\x1b[2J 1') // 'Vln\\x1b[2J 1'
 */
export const printable = (text: string): string => text.replace(unprintable, visible);
