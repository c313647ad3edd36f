import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseSeconds } from '../../src/notation/duration.ts';

test.each([
  ['60 ms', 0.06],
  ['60ms', 0.06],
  ['60\u00a0MS', 0.06],
  ['0.5 s', 0.5],
  ['.5 s', 0.5],
  ['12 S', 12],
  ['0.1 ms', 0.0001],
  ['0', 0],
  ['0 ms', 0],
])('%j is %d seconds', (text, seconds) => {
  expect(parseSeconds(text)).toBe(seconds);
});

test.each([
  '',
  '60',
  '0.0',
  's',
  'ms',
  '-1 s',
  '−1 s',
  '1 sec',
  '1 min',
  '1 s 2 ms',
  '1e3 ms',
  '0,5 s',
])('%j is no length of time', (text) => {
  expect(parseSeconds(text)).toBeNull();
});

test('a decimal comma', () => {
  expect(parseSeconds('0,5 s', true)).toBe(0.5);
  expect(parseSeconds('0.5 s', true)).toBe(0.5);
  expect(parseSeconds('1.500 ms', true)).toBeNull();
});

test('milliseconds are the nearest number to the thousandth', () => {
  fc.assert(
    fc.property(fc.nat({ max: 99_999 }), (count) => {
      const seconds = `${Math.floor(count / 1000)}.${String(count % 1000).padStart(3, '0')}`;
      expect(parseSeconds(`${count} ms`)).toBe(Number(seconds));
    }),
  );
});
