import { expect, test } from 'vitest';
import { parseControllers } from '../../src/notation/controllers.ts';

// Controllers 0 to 127 with values 0 to 127: MIDI 1.0, Detailed Specification, control change.

const low = { number: 1, range: [0, 63] };
const loud = { number: 11, range: [64, 127] };

test.each([
  ['1:0-63', [[low]]],
  ['CC1:0-63', [[low]]],
  ['cc 1 : 0–63', [[low]]],
  ['\u00a01:\u00a00..63 ', [[low]]],
  ['1:0-63 & 11:64-127', [[low, loud]]],
  ['1:0-63&CC11:64-127', [[low, loud]]],
  ['1:0-63 | 11:64-127', [[low], [loud]]],
  ['1:0-63 | 1:0-63 & 11:64-127', [[low], [low, loud]]],
  ['11:64-127 & 1:0-63 | 1:0-63', [[loud, low], [low]]],
  ['64:127', [[{ number: 64, range: [127, 127] }]]],
  ['0:0|127:127', [[{ number: 0, range: [0, 0] }], [{ number: 127, range: [127, 127] }]]],
])('%j', (text, alternatives) => {
  expect(parseControllers(text)).toEqual(alternatives);
});

test.each([
  '',
  '1',
  'CC1',
  '1:',
  ':0-63',
  '1:63-0',
  '1:0-128',
  '128:0-63',
  '1:0-63 &',
  '& 1:0-63',
  '1:0-63 |',
  '1:0-63 | | 11:64',
  '1:0-63, 11:64-127',
  '1:0-63 11:64-127',
  '1=0-63',
  'mod:0-63',
  // What spreadsheets make of 1:64, a time of day: common practice
  '01:64:00',
  '1:64:00',
])('%j is no condition on controllers', (text) => {
  expect(parseControllers(text)).toBeNull();
});

test('a cell of nothing but marks is no trouble', () => {
  expect(parseControllers('|'.repeat(1_000_000))).toBeNull();
  expect(parseControllers('1:0&'.repeat(1_000_000))).toBeNull();
  expect(parseControllers(`1:${' '.repeat(1_000_000)}0`)).toEqual([[{ number: 1, range: [0, 0] }]]);
});
