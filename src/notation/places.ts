/** Counted from 1; columns in characters, so that a clef or an emoji is one. */
export interface TextPlace {
  readonly line: number;
  readonly column: number;
}

const lineFeed = 0x0a;
const carriageReturn = 0x0d;

/**
 * Tells the lines and columns of a text for offsets that never go back: each call counts on from the
 * one before, so that all of them together take linear time. CRLF, LF and CR end a line.
 */
export const placesIn = (text: string): ((offset: number) => TextPlace) => {
  let at = 0;
  let line = 1;
  let column = 1;
  return (offset) => {
    for (; at < offset; at += 1) {
      const code = text.charCodeAt(at);
      const next = text.charCodeAt(at + 1);
      if (code === lineFeed || (code === carriageReturn && next !== lineFeed)) {
        line += 1;
        column = 1;
      } else if ((code & 0xfc00) !== 0xd800) {
        // Decoded text has no halves of pairs: the second unit is sure to follow and counts for both.
        column += 1;
      }
    }
    return { line, column };
  };
};
