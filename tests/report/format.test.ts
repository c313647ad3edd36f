import { expect, test } from 'vitest';
import {
  byteUnit,
  bytesIn,
  formatBytes,
  formatCount,
  formatDuration,
  formatShare,
  plural,
  tableUnit,
} from '../../src/report/format.ts';

// 1 KiB is 1024 B, 1 MiB 1024 KiB, 1 GiB 1024 MiB (IEC 80000-13).
const [kibi, mebi, gibi] = [2 ** 10, 2 ** 20, 2 ** 30] as const;

test.each([
  [0, '0 B'],
  [1, '1 B'],
  [999, '999 B'],
  [1_000, '1 000 B'],
  [1_023, '1 023 B'],
  [kibi, '1.00 KiB'],
  [1_240, '1.21 KiB'],
  [1.5 * kibi, '1.50 KiB'],
  [9.994 * kibi, '9.99 KiB'],
  [9.996 * kibi, '10.0 KiB'],
  [99.94 * kibi, '99.9 KiB'],
  [99.96 * kibi, '100 KiB'],
  [999.4 * kibi, '999 KiB'],
  // Four figures are too many for the unit: 999.6 of 1024.
  [999.6 * kibi, '0.976 MiB'],
  [1_023 * kibi, '0.999 MiB'],
  [1_023.9 * kibi, '1.00 MiB'],
  [mebi, '1.00 MiB'],
  [46.72 * mebi, '46.7 MiB'],
  [655.3 * mebi, '655 MiB'],
  [1_010 * mebi, '0.986 GiB'],
  [1_023.94 * mebi, '1.00 GiB'],
  [1_024 * mebi, '1.00 GiB'],
  [7.834 * gibi, '7.83 GiB'],
  [999.6 * gibi, '1 000 GiB'],
  [2_048 * gibi, '2 048 GiB'],
])('%d bytes are %s', (count, text) => {
  expect(formatBytes(count)).toBe(text);
});

test('whatever is there is never written as nothing, and has three figures from 1 KiB on', () => {
  for (let count = 1; count < 2 ** 42; count = Math.ceil(count * 1.037)) {
    const [figures = '', unit = ''] = formatBytes(count).split(/ (?=\D)/);
    expect(Number(figures.replaceAll(' ', ''))).toBeGreaterThan(0);
    // Figures count from the first that is not 0; whole numbers of bytes and of many GiB have their own.
    const significant = figures.replace(/\D/g, '').replace(/^0+/, '').length;
    if (unit !== 'B' && count < 1000 * gibi) expect(significant, formatBytes(count)).toBe(3);
    // Never further from the truth than half of the third figure.
    const size = { B: 1, KiB: kibi, MiB: mebi, GiB: gibi }[unit] ?? Number.NaN;
    expect(Math.abs(Number(figures.replaceAll(' ', '')) * size - count) / count).toBeLessThan(
      0.00501,
    );
  }
});

test('bytes in a unit that is not their own', () => {
  expect(bytesIn(0, byteUnit(mebi))).toBe('0');
  expect(bytesIn(20_480, byteUnit(mebi))).toBe('<0.1');
  expect(bytesIn(0.05 * mebi, byteUnit(mebi))).toBe('0.1');
  expect(bytesIn(1_234.5 * mebi, byteUnit(mebi))).toBe('1 234.5');
  expect(bytesIn(812, byteUnit(1))).toBe('812');
});

test.each([
  [0, 'B'],
  [32 * kibi - 1, 'B'],
  [32 * kibi, 'KiB'],
  [4.6 * mebi, 'KiB'],
  [131 * mebi, 'MiB'],
  [12 * gibi, 'MiB'],
  [40 * gibi, 'GiB'],
])('a table whose largest figure is %d bytes counts in %s', (largest, name) => {
  expect(tableUnit(largest).name).toBe(name);
});

test.each([
  [0, '0'],
  [999, '999'],
  [1_203, '1 203'],
  [1_234_567, '1 234 567'],
])('%d is written %s', (count, text) => {
  expect(formatCount(count)).toBe(text);
});

test.each([
  [0, '0:00'],
  [9.4, '0:09'],
  [59.5, '1:00'],
  [134.25, '2:14'],
  [3_599.6, '1:00:00'],
  [3_725, '1:02:05'],
])('%d seconds are %s', (seconds, text) => {
  expect(formatDuration(seconds)).toBe(text);
});

test.each([
  [1, 0, null],
  [0, 7, '0 %'],
  [1, 1_000, '<1 %'],
  [999, 1_000, '99 %'],
  [7, 7, '100 %'],
])('%d of %d is %s', (part, whole, text) => {
  expect(formatShare(part, whole)).toBe(text);
});

test('nouns follow their number', () => {
  expect(plural(1, 'zone')).toBe('1 zone');
  expect(plural(0, 'zone')).toBe('0 zones');
  expect(plural(1_203, 'entry', 'entries')).toBe('1 203 entries');
});
