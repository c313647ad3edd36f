/**
 * The start of a text that may be long, with `…` where it was cut.
 *
 * @param longest in characters
 */
export const shorten = (text: string, longest: number): string => {
  // Cut by code units before: only the start is shown. No character has more than two.
  const letters = [...text.slice(0, 2 * longest + 2)];
  return letters.length <= longest ? text : `${letters.slice(0, longest - 1).join('')}…`;
};
