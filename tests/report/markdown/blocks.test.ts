import { expect, test } from 'vitest';
import { fixed } from '../../../src/report/cell.ts';
import { bullets } from '../../../src/report/bullets.ts';
import { item, led } from '../../../src/report/indent.ts';
import { markdownLook } from '../../../src/report/markdown/markdown-look.ts';
import { toMarkdown } from '../../../src/report/markdown/to-markdown.ts';
import { layOut } from '../../../src/report/table.ts';
import { verbatim } from '../../../src/report/verbatim.ts';
import { piped } from './reports.ts';

const look = markdownLook({ ...piped, width: 80 });
const { bold, red, dim } = look.colors;
const written = (lines: readonly string[]): string => toMarkdown(lines.join('\n'), 'T');

test('the verdict is a sentence, what is bold and stands alone a heading', () => {
  const lines = [bold('All of it stays.'), 'So it is.', '', bold('Machine a'), '', 'Fits.', ''];
  expect(written(lines)).toBe(
    '# T\n\n**All of it stays.**\n\nSo it is.\n\n## Machine a\n\nFits.\n',
  );
});

test('a bold beginning of a sentence is no heading', () => {
  expect(written(['a', '', `${bold('Player x')} is fitted to them.`, 'b'])).toContain(
    '\n**Player x** is fitted to them.\n',
  );
  expect(written(['a', '', `${bold('Player x')} (2 copies)`, '', 'b'])).toContain(
    '\n## Player x (2 copies)\n',
  );
});

test('strong words side by side are one, quiet ones are plain', () => {
  expect(written([`${bold('Keep 1:')} ${bold('2;')} ${red('3')} ${dim('(4)')}.`])).toContain(
    '\n**Keep 1: 2; 3** (4).\n',
  );
});

test('a table: titles on one line, sides, what is under a rule in bold', () => {
  const { text, leftOut } = layOut(
    [
      { title: ['Name'], align: 'left', min: 4 },
      { title: ['Kept', 'MiB'], align: 'right', leaveOut: 1 },
    ],
    [
      [fixed('a|b'), fixed('1.0', red)],
      [fixed('c'), fixed('')],
      'rule',
      [fixed('all'), fixed('1.0')],
    ],
    look,
  );
  expect(leftOut).toEqual([]);
  expect(written([text])).toBe(
    [
      ...['# T', '', '| Name | Kept MiB |', '| --- | --: |'],
      ...[String.raw`| a\|b | **1.0** |`, '| c |  |', '| **all** | **1.0** |', ''],
    ].join('\n'),
  );
});

test('items, numbered ones with what belongs to them, and lines to copy', () => {
  const lines = [
    ...bullets('Notes', [['one'], ['- two']], look),
    '',
    ...led('10. ', [{ text: 'ten:', paint: bold }, 'zones'], look),
    ...led('   ', ['more of it'], look),
    ...item(['way'], look),
    ...item(['other way'], look),
    '',
    ...verbatim(['  a: ```', 'b'], look),
  ];
  expect(written(lines)).toBe(
    [
      ...['# T', '', '## Notes', '', '- one', String.raw`- \- two`, ''],
      ...['10. **ten:** zones', '', '    more of it', '', '    - way', '    - other way', ''],
      ...['````text', '  a: ```', 'b', '````', ''],
    ].join('\n'),
  );
});
