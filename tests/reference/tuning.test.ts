import { expect, it, test } from 'vitest';
import {
  concertA,
  formula,
  middleC,
  pianoRows,
  standardRows,
  tuningStepCents,
} from '../../reference/tuning.ts';

/** Twelve-tone equal temperament by counting semitones, without the formula's power. */
const hertz = (key: number): number => {
  let value = concertA.hertz;
  const semitone = Math.pow(2, 1 / 12);
  for (let at = concertA.key; at < key; at += 1) value *= semitone;
  for (let at = concertA.key; at > key; at -= 1) value /= semitone;
  return value;
};

const cents = (a: number, b: number): number => 1200 * Math.log2(a / b);

test.each(standardRows)(
  'key $key is $hertz Hz in the standard, to a hundredth of a cent',
  (row) => {
    expect(Math.abs(cents(row.hertz, hertz(row.key)))).toBeLessThan(0.01);
  },
);

test.each(pianoRows)('key $key is $hertz Hz in the piano table, to its last digit', (row) => {
  // Two decimals, so half a hundredth; a little more for the rounding of the product above.
  expect(Math.abs(row.hertz - hertz(row.key))).toBeLessThan(0.005 + 1e-6);
});

it('the formula as written gives every row', () => {
  const [, hz, key] = /^f\(n\) = (\d+) \* 2 \^ \(\(n - (\d+)\) \/ 12\)$/.exec(formula) ?? [];
  for (const row of [...standardRows, ...pianoRows]) {
    const value = Number(hz) * 2 ** ((row.key - Number(key)) / 12);
    expect(Math.abs(cents(value, hertz(row.key)))).toBeLessThan(1e-6);
  }
});

it('middle C lies nine semitones below concert A, at 261.62 Hz and a bit', () => {
  // SoundFont 7.10 says 261.62 Hz, cut off rather than rounded: 261.6256.
  expect(concertA.key - middleC).toBe(9);
  expect(Math.floor(hertz(middleC) * 100) / 100).toBe(261.62);
});

it('the smallest tuning step is a semitone over 2 to the 14', () => {
  expect(100 / 2 ** 14).toBeCloseTo(tuningStepCents, 4);
});
