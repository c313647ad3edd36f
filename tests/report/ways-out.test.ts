import { expect, test } from 'vitest';
import { plainColors } from '../../src/report/colors.ts';
import type { Look } from '../../src/report/look.ts';
import { waySaid, wayWords } from '../../src/report/ways-out.ts';

const look: Look = { colors: plainColors, ascii: false, width: null, middleC: 3 };

const articulation = (switchedBy: string | null) =>
  ({ kind: 'articulation', articulation: 'long\u0007', switch: switchedBy }) as const;

test('names from a file stand apart from our words, so that a page can show them as names', () => {
  expect(waySaid(articulation('program 5 <b>'), look)).toEqual([
    'another articulation: ',
    { name: 'long\u0007' },
    ', chosen by ',
    { name: 'program 5 <b>' },
  ]);
  expect(waySaid(articulation(null), look)).toEqual([
    'another articulation: ',
    { name: 'long\u0007' },
  ]);
});

test('a key is no name: it is told by the middle C of the report', () => {
  expect(waySaid(articulation('C0 (12)'), look).at(-1)).toBe(', chosen by C-1 (12)');
});

test('as text names are made printable', () => {
  const words = wayWords(articulation('C0 (12)'), look);
  expect(words).toMatch(/^another articulation: long.+, chosen by C-1 \(12\)$/);
  expect(words).not.toContain('\u0007');
});
