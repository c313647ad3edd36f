/**
 * Orders text by code points: the same on every machine, whatever its language. (`<` would compare
 * halves of surrogate pairs and put them before U+E000.)
 */
export const byCodePoint = (a: string, b: string): number => {
  const [left, right] = [[...a], [...b]];
  const at = left.findIndex((character, i) => character !== right[i]);
  if (at < 0) return left.length - right.length;
  return (left[at]?.codePointAt(0) ?? -1) - (right[at]?.codePointAt(0) ?? -1);
};
