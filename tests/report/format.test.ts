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
  [kibi, '1.0 KiB'],
  [1.5 * kibi, '1.5 KiB'],
  [1_023.9 * kibi, '1 023.9 KiB'],
  [1_023.96 * kibi, '1.0 MiB'],
  [mebi, '1.0 MiB'],
  [41.2 * mebi, '41.2 MiB'],
  [1_023.94 * mebi, '1 023.9 MiB'],
  [1_023.96 * mebi, '1.0 GiB'],
  [3.9 * gibi, '3.9 GiB'],
  [2_048 * gibi, '2 048.0 GiB'],
])('%d bytes are %s', (count, text) => {
  expect(formatBytes(count)).toBe(text);
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
