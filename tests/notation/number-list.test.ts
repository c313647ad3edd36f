import { expect, test } from 'vitest';
import { parseNumberList } from '../../src/notation/number-list.ts';

test.each([
  ['3-7,12', [3, 4, 5, 6, 7, 12]],
  ['12; 3..4', [3, 4, 12]],
  [' 5 – 6 , 5', [5, 6]],
  ['999999999', [999_999_999]],
])('%s', (text, numbers) => {
  expect(parseNumberList(text)).toEqual({ numbers, fault: null });
});

test.each([
  ['', ['""']],
  ['0', ['"0"']],
  ['7-3,x,4', ['"7-3"', '"x"']],
  ['1-999999999', ['"1-999999999"']],
  ['1-60000,60001-120000', ['"60001-120000"']],
  ['1e3,-4,0x5', ['"1e3"', '"-4"', '"0x5"']],
  ['3,\u001b[2J', [String.raw`"\x1b[2J"`]],
])('%j names all that is no number', (text, parts) => {
  const { fault } = parseNumberList(text);
  for (const part of parts) expect(fault).toContain(part);
  expect(fault).not.toMatch(/\p{Cc}/u);
});

test('of many faults some are named', () => {
  expect(parseNumberList('x,'.repeat(1000)).fault).toContain('and 991 more');
});
