const pieces = (text: string): readonly string[] => text.match(/\d+|\D+/g) ?? [];

const isNumber = (piece: string): boolean => /^\d/.test(piece);

const byCodeUnit = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Digits of any length as numbers: fewer digits first, once leading zeros are gone. */
const byNumber = (a: string, b: string): number => {
  const short = a.replace(/^0+/, '');
  const other = b.replace(/^0+/, '');
  return short.length - other.length || byCodeUnit(short, other);
};

const folded = (a: string, b: string): number => {
  const left = pieces(a);
  const right = pieces(b);
  for (let index = 0; index < Math.min(left.length, right.length); index += 1) {
    const x = left[index] as string;
    const y = right[index] as string;
    const order = isNumber(x) && isNumber(y) ? byNumber(x, y) : byCodeUnit(x, y);
    if (order !== 0) return order;
  }
  return left.length - right.length;
};

/**
 * Compares texts as people sort them: `cue 2` before `cue 10`, capitals with small letters. Total
 * (0 only for equal texts) and the same on every machine.
 */
export const compareNatural = (a: string, b: string): number =>
  folded(a.toLowerCase(), b.toLowerCase()) || byCodeUnit(a, b);
