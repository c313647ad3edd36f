import { expect, test } from 'vitest';
import { parseByteRate } from '../../src/notation/byte-rate.ts';

test.each([
  // By hand: powers of 1000 (SI) and of 1024 (IEC 80000-13).
  ['300 MB/s', 300_000_000],
  ['300MB/s', 300_000_000],
  ['300 MiB/s', 300 * 1024 * 1024],
  ['1.5 GiB/s', 1.5 * 1024 ** 3],
  ['500 kib/S', 512_000],
  ['\u00a02 GB / s ', 2_000_000_000],
  ['1 B/s', 1],
])('%j is %d bytes a second', (text, rate) => {
  expect(parseByteRate(text)).toBe(rate);
});

test.each([
  '',
  '300',
  '300 MB',
  '300/s',
  '300 MB/',
  '300 MB//s',
  '300 MB/ms',
  '300 MB/min',
  '300 Mbit/s',
  '300 MB per second',
  '/s',
  '0/s',
  '0 MB/s',
  '0.4 B/s',
  '-1 MB/s',
  '0,5 GB/s',
])('%j is no rate', (text) => {
  expect(parseByteRate(text)).toBeNull();
});

test('a decimal comma', () => {
  expect(parseByteRate('0,5 GB/s', true)).toBe(500_000_000);
  expect(parseByteRate('1.500 MB/s', true)).toBeNull();
});
