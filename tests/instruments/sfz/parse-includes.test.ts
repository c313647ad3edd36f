import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { readDocument } from '../../../src/instruments/sfz/text/read-document.ts';
import { found, outline, read, refusals, root } from './reading.ts';

describe('activation H: #include', () => {
  test.each<readonly [string, string, Readonly<Record<string, string>>, readonly string[]]>([
    ['FilesT, local', '#include "a.sfz"', { 'kit/a.sfz': '<region>key=1' }, ['<region>|key=1']],
    [
      'FilesT, in the middle of a header',
      '<region>key=1 #include "a.sfz" lovel=2',
      { 'kit/a.sfz': 'hikey=3' },
      ['<region>|key=1|hikey=3|lovel=2'],
    ],
    [
      'FilesT, several on a line, and a comment',
      '#include "a.sfz"#include "b.sfz" // both',
      { 'kit/a.sfz': '<group>key=1', 'kit/b.sfz': '<region>key=2' },
      ['<group>|key=1', '<region>|key=2'],
    ],
    [
      'FilesT, twice',
      '<region>#include "a.sfz"\n<region>#include "a.sfz"',
      { 'kit/a.sfz': 'key=1' },
      ['<region>|key=1', '<region>|key=1'],
    ],
    ['FilesT, subdir', '#include "sub/a.sfz"', { 'kit/sub/a.sfz': '<region>' }, ['<region>']],
    [
      'FilesT, subdir with a backslash',
      '#include "sub\\a.sfz"',
      { 'kit/sub/a.sfz': '<region>' },
      ['<region>'],
    ],
    [
      'FilesT, recursive: paths start at the root, whatever the including file',
      '#include "sub/a.sfz"',
      {
        'kit/sub/a.sfz': '#include "b.sfz"',
        'kit/b.sfz': '<region>key=1',
        'kit/sub/b.sfz': '<group>',
      },
      ['<region>|key=1'],
    ],
    [
      'FilesT, variables in the path (dollar_include)',
      '#define $dir sub\n#include "$dir/a.sfz"',
      { 'kit/sub/a.sfz': '<region>' },
      ['<region>'],
    ],
    [
      'variables last into the file and out of it',
      '#define $a 1\n#include "a.sfz"\n<region>key=$b',
      { 'kit/a.sfz': '<region>key=$a\n#define $b 2' },
      ['<region>|key=1', '<region>|key=2'],
    ],
    ['no blank is needed', '#include"a.sfz"', { 'kit/a.sfz': '<region>' }, ['<region>']],
    [
      'a value ends with its file',
      '<region>#include "a.sfz"\nkey=1',
      { 'kit/a.sfz': 'sample=a' },
      ['<region>|sample=a|key=1'],
    ],
    ['round about', '#include "./sub/.././a.sfz"', { 'kit/a.sfz': '<region>' }, ['<region>']],
    ['an empty file', '<region>#include "a.sfz"', { 'kit/a.sfz': '' }, ['<region>']],
  ])('%s: %j', async (_, text, others, expected) => {
    const document = await read(text, others);
    expect(outline(document)).toEqual(expected);
    expect(document.findings).toEqual([]);
  });

  test.each([
    '#include a.sfz',
    '#include <a.sfz>',
    "#include 'a.sfz'",
    '#include "a.sfz',
    '#include',
  ])('Parser source, straight double quotes are needed: %s', async (text) => {
    const document = await read(`${text}\n<group>`, { 'kit/a.sfz': '<region>' });
    expect(outline(document)).toEqual(['<group>']);
    expect(found(document.findings)).toEqual(['sfz-directive-broken 1 1']);
  });

  test('each file is kept once, by the path that leads to it', async () => {
    const { files } = await read('#include "b/a.sfz" #include "b/../b/a.sfz" #include "b\\a.sfz"', {
      'kit/b/a.sfz': '<region>',
    });
    expect(files.map(({ path }) => path)).toEqual(['kit/kit.sfz', 'kit/b/a.sfz']);
  });

  test('a root of the working folder, and one that is nowhere', async () => {
    const files = new MemoryFiles({ 'kit.sfz': '#include "A.sfz"', 'a.sfz': '<region>' });
    expect((await readDocument(files, 'kit.sfz')).files[1]!.path).toBe('a.sfz');
    expect(await refusals(readDocument(files, 'no.sfz'))).toMatchObject([
      { code: 'path-missing', file: 'no.sfz' },
    ]);
  });
});

test.each([
  ['FilesT, case_insensitive', 'SUB/a.SFZ', 'kit/Sub/A.sfz', 'kit/Sub/A.sfz'],
  ['accents put together otherwise', 'e\u0301.sfz', 'kit/\u00e9.sfz', 'kit/\u00e9.sfz'],
  ['beside the folder', '../KIT2/a.sfz', 'Kit2/a.sfz', 'Kit2/a.sfz'],
])('%s: found, with a remark', async (_, written, path, expected) => {
  const document = await read(`\n#include "${written}"`, { [path]: '<region>' });
  expect(document.files[1]!.path).toBe(expected);
  expect(document.findings.find(({ code }) => code === 'sfz-include-case')).toMatchObject({
    severity: 'warning',
    file: root,
    at: { line: 2, column: 1 },
    args: { path: written, found: expected },
  });
});

test('the very name goes before one in other capitals', async () => {
  const document = await read('#include "b.sfz"', {
    'kit/B.sfz': '<group>',
    'kit/b.sfz': '<region>',
  });
  expect(outline(document)).toEqual(['<region>']);
  expect(document.findings).toEqual([]);
});

test.each([
  ['../shared/a.sfz', 'shared/a.sfz'],
  ['sub/../../a.sfz', 'a.sfz'],
  ['/abs/a.sfz', '/abs/a.sfz'],
  ['\\abs\\a.sfz', '/abs/a.sfz'],
  ['//host/share/a.sfz', '/host/share/a.sfz'],
])('%s lies outside: read, with a remark', async (written, path) => {
  const document = await read(`#include "${written}"`, { [path]: '<region>' });
  expect(outline(document)).toEqual(['<region>']);
  expect(found(document.findings)).toEqual(['sfz-include-outside 1 1']);
});

test('an absolute path into the own folder does not', async () => {
  const files = new MemoryFiles({
    '/lib/kit/kit.sfz': '#include "/lib/kit/a.sfz"',
    '/lib/kit/a.sfz': '<region>',
  });
  expect((await readDocument(files, '/lib/kit/kit.sfz')).findings).toEqual([]);
});

test('all missing includes are told at once, with the place of each', async () => {
  const stops = await refusals(
    read('#include "no.sfz"\n #include "a.sfz"\n#include "no.sfz"', {
      'kit/a.sfz': '\n\n<region> #include "sub"',
      'kit/sub/b.sfz': '',
    }),
  );
  expect(stops).toMatchObject([
    {
      code: 'sfz-include-missing',
      file: root,
      at: { line: 1, column: 1 },
      args: { path: 'no.sfz' },
    },
    { file: 'kit/a.sfz', at: { line: 3, column: 10 }, args: { path: 'sub' } },
    { file: root, at: { line: 3, column: 1 } },
  ]);
});

test.each<readonly [string, Readonly<Record<string, string>>, readonly string[]]>([
  ['itself', {}, ['kit/kit.sfz', 'kit/kit.sfz']],
  [
    'one another',
    { 'kit/a.sfz': '#include "kit.sfz"' },
    ['kit/kit.sfz', 'kit/a.sfz', 'kit/kit.sfz'],
  ],
  [
    'one another further in',
    { 'kit/a.sfz': '#include "b.sfz"', 'kit/b.sfz': '#include "./A.sfz"' },
    ['kit/a.sfz', 'kit/b.sfz', 'kit/a.sfz'],
  ],
])('FilesT, include_loop: files that include %s', async (_, others, chain) => {
  const text = 'kit/a.sfz' in others ? '#include "a.sfz"' : '#include "../kit/kit.sfz"';
  expect(await refusals(read(text, others))).toMatchObject([
    { code: 'sfz-include-cycle', args: { chain } },
  ]);
});
