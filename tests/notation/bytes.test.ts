import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseByteCount, parseBytes } from '../../src/notation/bytes.ts';

// Powers of ten: SI prefixes. Powers of two: IEC 80000-13, binary prefixes.
const sizes: readonly (readonly [string, number])[] = [
  ['B', 1],
  ['kB', 1000],
  ['MB', 1_000_000],
  ['GB', 1_000_000_000],
  ['TB', 1_000_000_000_000],
  ['KiB', 1024],
  ['MiB', 1_048_576],
  ['GiB', 1_073_741_824],
  ['TiB', 1_099_511_627_776],
];

test.each(sizes)('one %s is %d bytes, in any case, with any blank or none', (unit, bytes) => {
  for (const name of [unit, unit.toLowerCase(), unit.toUpperCase()]) {
    for (const blank of ['', ' ', '\u00a0', '\u2009', '  ']) {
      expect(parseBytes(`1${blank}${name}`)).toBe(bytes);
      expect(parseByteCount(`1${blank}${name}`)).toBe(bytes);
    }
  }
});

test.each([
  ['0', 0],
  [' 0 ', 0],
  ['0 GB', 0],
  ['60 KiB', 61440],
  ['12 MiB', 12_582_912],
  // 0.6 x 2^30 = 644 245 094.4
  ['0.6 GiB', 644_245_094],
  ['.5 kB', 500],
  ['0.4 B', 0],
  ['0.5 B', 1],
  ['1.5 B', 2],
  // Halves that binary fractions miss: 0.5005 x 1000 comes to 500.49999999999994 with doubles.
  ['0.5005 kB', 501],
  ['0.5004999 kB', 500],
  // 2^53 - 1, the largest whole number JSON readers agree on
  ['9007199254740991 B', 9_007_199_254_740_991],
])('%j is %d bytes', (text, bytes) => {
  expect(parseBytes(text)).toBe(bytes);
  expect(parseByteCount(text)).toBe(bytes);
});

test.each([
  '',
  ' ',
  'GB',
  '1.5',
  '0.0',
  '-1 MB',
  '−1 MB',
  '+1 MB',
  '1 M',
  '1 PB',
  '1 bytes',
  '1 MBB',
  '1 MB 2 kB',
  '1 000 kB',
  '1,5 MB',
  '1.2.3 MB',
  '1e3 MB',
  '0x10 B',
  '1 constructor',
  '9007199254740992 B',
  '8193 TiB',
  `${'9'.repeat(100_000)} B`,
])('%j is no amount of memory', (text) => {
  expect(parseBytes(text)).toBeNull();
  expect(parseByteCount(text)).toBeNull();
});

test('a plain number is a count of bytes in a column of bytes only', () => {
  expect(parseBytes('44100')).toBeNull();
  expect(parseByteCount('44100')).toBe(44100);
  expect(parseByteCount('\u00a044100 ')).toBe(44100);
  expect(parseByteCount('00')).toBe(0);
  expect(parseByteCount('9007199254740992')).toBeNull();
  expect(parseByteCount('44100.0')).toBeNull();
  expect(parseByteCount('-1')).toBeNull();
});

test('a decimal comma', () => {
  expect(parseBytes('0,6 GB', true)).toBe(600_000_000);
  expect(parseBytes('0.6 GB', true)).toBe(600_000_000);
  expect(parseByteCount('1,5 kB', true)).toBe(1500);
  expect(parseBytes('1.024 MB', true)).toBeNull();
  expect(parseByteCount('1.024', true)).toBeNull();
  expect(parseByteCount('1,5', true)).toBeNull();
});

test('whole amounts come out exactly', () => {
  fc.assert(
    fc.property(fc.nat({ max: 4095 }), fc.constantFrom(...sizes), (count, [unit, bytes]) => {
      expect(parseBytes(`${count} ${unit}`)).toBe(count * bytes);
    }),
  );
});
