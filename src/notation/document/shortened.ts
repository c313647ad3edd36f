/** Characters of a text from a file that a finding shows. */
const longest = 40;

/**
 * A text from a file at a length that fits into a sentence.
 *
 * @example shortened('x'.repeat(50)).length // 40
 */
export const shortened = (text: string): string => {
  // Cut by code units before: only the start is shown. No character has more than two.
  const letters = [...text.slice(0, 2 * longest + 2)];
  return letters.length <= longest ? text : `${letters.slice(0, longest - 1).join('')}…`;
};
