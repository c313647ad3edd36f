/** Enough for every figure here; longer ones are slips, and slow to reckon with exactly. */
const pattern = /^(\d{0,24})(?:([.,])(\d{1,24}))?$/u;

/** The digits of a decimal without sign: `whole` + `fraction` / 10 ^ its length. */
export interface Decimal {
  /** At least one digit. */
  readonly whole: string;
  /** May be empty. */
  readonly fraction: string;
}

/**
 * Takes a decimal without sign or exponent apart; null when it is none.
 *
 * With `decimalComma` the comma is the decimal mark and the point is understood too, except where it
 * may group thousands: `48.000` is 48 to one reader and 48 thousand to another, so it is null.
 *
 * @param text without blanks at the ends
 * @example parseDecimal('0,5', true) // { whole: '0', fraction: '5' }
 */
export const parseDecimal = (text: string, decimalComma: boolean): Decimal | null => {
  const match = pattern.exec(text);
  if (match === null) return null;
  const [, whole = '', mark, fraction = ''] = match;
  if (whole === '' && mark === undefined) return null;
  if (mark === ',' && !decimalComma) return null;
  if (mark === '.' && decimalComma && /^[1-9]\d{0,2}\.\d{3}$/u.test(text)) return null;
  return { whole: whole === '' ? '0' : whole, fraction };
};
