import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseNumber } from '../../src/notation/number.ts';

test.each([
  ['0', 0],
  ['12', 12],
  ['-12', -12],
  ['−12', -12],
  ['–12', -12],
  ['+3', 3],
  ['0.9', 0.9],
  ['.5', 0.5],
  ['007', 7],
  [' 44100\u00a0', 44100],
  ['48.000', 48],
])('%j is %d', (text, value) => {
  expect(parseNumber(text)).toBe(value);
});

test('nothing is never minus nothing', () => {
  expect(Object.is(parseNumber('-0'), 0)).toBe(true);
});

const unreadable = [
  '',
  ' ',
  '-',
  '.',
  ',',
  '5.',
  '1.2.3',
  '1,2,3',
  '1 000',
  '1\u202f000',
  '- 5',
  '--5',
  '+-5',
  '1e5',
  '0x10',
  'Infinity',
  'NaN',
  '½',
  '٣',
  'twelve',
  '12 dB',
  '9'.repeat(400),
];

test.each(unreadable)('%j is no number, with a decimal point or comma', (text) => {
  expect(parseNumber(text)).toBeNull();
  expect(parseNumber(text, true)).toBeNull();
});

test('a comma is the decimal mark only where it is free', () => {
  expect(parseNumber('0,9', true)).toBe(0.9);
  expect(parseNumber(',5', true)).toBe(0.5);
  expect(parseNumber('0,9')).toBeNull();
  expect(parseNumber('1,000')).toBeNull();
});

test.each([
  ['0.9', 0.9],
  ['0.125', 0.125],
  ['1.25', 1.25],
  ['1.2345', 1.2345],
  ['1234.567', 1234.567],
  ['1,000', 1],
])('beside decimal commas %j is still %d', (text, value) => {
  expect(parseNumber(text, true)).toBe(value);
});

test.each(['1.000', '48.000', '12.345', '123.456', '-1.000', '1.000.000', '1.000,5'])(
  'beside decimal commas %j may group thousands, so it is not guessed',
  (text) => {
    expect(parseNumber(text, true)).toBeNull();
  },
);

test('what is written with a point or a comma is read back', () => {
  const written = fc.double({ min: -1e9, max: 1e9, noNaN: true }).map((x) => x.toFixed(4));
  fc.assert(
    fc.property(written, (text) => {
      const value = Number(text) + 0;
      expect(parseNumber(text)).toBe(value);
      expect(parseNumber(text.replace('.', ','), true)).toBe(value);
    }),
  );
});
