/** Columns of a line of the draft. */
export const lineWidth = 100;

/**
 * A text as comment lines, words wrapped. Names in it must be printable already: a line break would
 * end the comment.
 *
 * @param indent blanks before each `#`
 */
export const comment = (text: string, indent = 0): readonly string[] => {
  const start = `${' '.repeat(indent)}#`;
  const lines: string[] = [];
  let line = start;
  for (const word of text.split(' ')) {
    if (line !== start && line.length + 1 + word.length > lineWidth) {
      lines.push(line);
      line = start;
    }
    line += ` ${word}`;
  }
  return [...lines, line];
};
