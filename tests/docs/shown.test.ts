import { expect, test } from 'vitest';
import { stepsOf } from './page-steps.ts';
import { differenceOf, refilled } from './shown.ts';
import { wordsOf } from './words.ts';

const part = (...lines: string[]) => ({ lines, from: 0, to: lines.length });
const printed = ['Keep 2 of 3.', '', 'Machine a', '1', '2', 'all 3', '', 'Caution', 'end', ''];

test.each([
  ['all of it', [part(...printed)], true],
  ['a beginning and a gap', [part('Keep 2 of 3.', '…')], true],
  ['a beginning without a gap', [part('Keep 2 of 3.')], false],
  ['a middle between gaps', [part('…', 'Machine a', '1', '…')], true],
  ['an end behind a gap', [part('…', 'Caution', 'end')], true],
  ['what is not the end, as the end', [part('…', 'Caution')], false],
  ['two parts in order', [part('Keep 2 of 3.'), part('Caution', '…')], true],
  ['two parts out of order', [part('…', 'Caution'), part('Machine a', '…')], false],
  ['another figure', [part('Keep 2 of 4.', '…')], false],
  ['lines that do not follow each other', [part('…', 'Machine a', '2', '…')], false],
  ['nothing shown', [], true],
])('%s: what a page shows is held against what is printed', (_, parts, isSo) => {
  expect(differenceOf(parts, printed) === null).toBe(isSo);
});

test('shown output is written anew with its gaps', () => {
  const parts = [part('Keep 1 of 2.', '…', 'Machine a', 'all 9', '…')];
  expect(refilled(parts, printed)).toEqual([
    ['Keep 2 of 3.', '…', 'Machine a', '1', '2', 'all 3', '…'],
  ]);
});

test('output that is not found again is not guessed at', () => {
  expect(refilled([part('Keep 1 of 2.', '…', 'Trombones', '…')], printed)).toBeNull();
});

test('a page is read as what its reader does', () => {
  const page = [
    '<!-- file: vc.yaml -->',
    '',
    '```yaml',
    'cues: .demo/cues',
    '```',
    '',
    '<!-- exit: 1 -->',
    '',
    '```',
    '$ keepset check x --keep "my keep.json"',
    'MISSING',
    '```',
    '',
    'and below:',
    '',
    '<!-- continued -->',
    '',
    '```',
    'Ways out',
    '```',
  ].join('\n');
  const [file, command] = stepsOf(page);
  expect(file).toEqual({ kind: 'file', path: 'vc.yaml', text: 'cues: .demo/cues\n' });
  expect(command).toMatchObject({ kind: 'command', exit: 1, at: 10 });
  expect(command?.kind === 'command' && command.shown.map(({ lines }) => lines)).toEqual([
    ['MISSING'],
    ['Ways out'],
  ]);
});

test('quotation marks hold words together', () => {
  expect(wordsOf(`keepset plan 'cues/1m*.mid' --without "1m2 v3" --pin a/b`)).toEqual([
    ...['keepset', 'plan', 'cues/1m*.mid', '--without', '1m2 v3', '--pin', 'a/b'],
  ]);
});
