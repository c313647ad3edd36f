import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { limits } from '../../../src/instruments/sfz/text/limits.ts';
import { readDocument } from '../../../src/instruments/sfz/text/read-document.ts';
import { structureOf } from '../../../src/instruments/sfz/structure/regions.ts';
import { found, outline, read, refusals, root } from './reading.ts';

const refusal = async (reading: Promise<unknown>): Promise<string> => {
  const [first] = await refusals(reading);
  const args = first!.args as { readonly what?: string };
  return [first!.code, ...(args.what === undefined ? [] : [args.what])].join(' ');
};

const utf16 = (text: string, littleEndian: boolean): Uint8Array => {
  const view = new DataView(new ArrayBuffer(2 * text.length));
  for (let i = 0; i < text.length; i += 1) view.setUint16(2 * i, text.charCodeAt(i), littleEndian);
  return new Uint8Array(view.buffer);
};

describe('what a file is written in', () => {
  const text = '<region>sample=B\u00fchne.wav key=1';

  test.each<readonly [string, string, Uint8Array]>([
    ['UTF-16', 'utf-16', utf16(`\ufeff${text}`, true)],
    ['UTF-16, the other way round', 'utf-16', utf16(`\ufeff${text}`, false)],
    ['Windows-1252', 'windows-1252', Uint8Array.from(text, (sign) => sign.charCodeAt(0))],
  ])('%s is read, with a note', async (_, encoding, bytes) => {
    const document = await read('#include "a.sfz"', { 'kit/a.sfz': bytes });
    expect(outline(document)).toEqual(['<region>|sample=B\u00fchne.wav|key=1']);
    expect(document.files[1]).toMatchObject({ text, encoding });
    expect(document.findings).toMatchObject([
      { severity: 'note', code: 'sfz-encoding', file: 'kit/a.sfz', args: { encoding } },
    ]);
  });

  test.each<readonly [string, Uint8Array]>([
    ['a sound file', Uint8Array.from([0x52, 0x49, 0x46, 0x46, 4, 0, 0, 0, 0x57, 0x41, 0x56, 0x45])],
    ['UTF-16 without a mark', utf16('<region>', true)],
    ['a zero in the middle', new TextEncoder().encode('<region>key=1\n\0')],
  ])('%s is no text', async (_, bytes) => {
    expect(await refusals(read(bytes))).toMatchObject([{ code: 'sfz-not-text', file: root }]);
    expect(await refusals(read('#include "a.sfz"', { 'kit/a.sfz': bytes }))).toMatchObject([
      { code: 'sfz-not-text', file: 'kit/a.sfz' },
    ]);
  });

  test('signs that are none of the format cost their line', async () => {
    const document = await read('\u0001\u001b[2J\n<region>key=1\u0007\n\ufffd');
    expect(outline(document)).toEqual(['<region>|key=1\u0007']);
    expect(found(document.findings)).toEqual(['sfz-line-skipped 1 1', 'sfz-line-skipped 3 1']);
  });
});

test('a comment left open', async () => {
  expect(await refusals(read('<region>\n key=1 /* and so on\n<region>'))).toMatchObject([
    { code: 'sfz-comment-open', file: root, at: { line: 2, column: 8 } },
  ]);
});

describe('variables without end', () => {
  test.each([
    ['for itself', '#define $a $a\n<region>key=$a'],
    ['for itself in the middle', '#define $a x$a\n<region>key=$a'],
    ['for one another', '#define $a $b\n#define $b $a\n<region>key=$a'],
    ['in the path of an include', '#define $a $a\n#include "$a.sfz"'],
    ['in a name', '#define $a $a\n<region>x$a=1'],
  ])('%s', async (_, text) => {
    expect(await refusal(read(text))).toBe('sfz-variable-endless');
  });

  test('ones that are not asked for do no harm', async () => {
    expect(outline(await read('#define $a $a\n<region>key=1'))).toEqual(['<region>|key=1']);
  });

  test('doubled again and again: with text, and without', async () => {
    const doubled = (first: string): string =>
      Array.from(
        { length: 40 },
        (_, i) => `#define $v${String(i)}_ $v${String(i + 1)}_$v${String(i + 1)}_\n`,
      ).join('') + `#define $v40_ ${first}\n<region>sample=$v0_`;
    expect(await refusal(read(doubled('xx')))).toBe('sfz-too-large value');
    expect(await refusal(read(doubled('')))).toBe('sfz-too-large value');
  });

  test('many values of many variables', async () => {
    const names = '$a'.repeat(30_000);
    const text = `#define $a\n<region>\n${`x=${names}\n`.repeat(200)}`;
    expect(await refusal(read(text))).toBe('sfz-too-large expansion');
  });
});

const files = (count: number, content: (i: number) => string): Record<string, string> =>
  Object.fromEntries(
    Array.from({ length: count }, (_, i) => [`kit/f${String(i)}.sfz`, content(i)]),
  );

const include = (i: number): string => `#include "f${String(i)}.sfz"\n`;

describe('more than is taken on', () => {
  test('a row of files', async () => {
    const row = (length: number) =>
      files(length, (i) => (i === length - 1 ? '<region>' : include(i + 1)));
    expect(outline(await read(include(0), row(limits.depth)))).toEqual(['<region>']);
    expect(await refusal(read(include(0), row(limits.depth + 1)))).toBe('sfz-too-large depth');
  });

  test('files that each include the next twice', async () => {
    const explosion = files(31, (i) => (i === 30 ? '' : include(i + 1).repeat(2)));
    expect(await refusal(read(include(0), explosion))).toBe('sfz-too-large includes');
  });

  test('a large file included again and again', async () => {
    const text = include(0).repeat(1000);
    expect(
      await refusal(
        read(
          text,
          files(1, () => '// x\n'.repeat(200_000)),
        ),
      ),
    ).toBe('sfz-too-large text');
  });

  test('a file, and files together, of more than 64 MiB: no more is read than shows it', async () => {
    const half = new Uint8Array(limits.text / 2 + 1).fill(0x20);
    const disk = new MemoryFiles({ [root]: include(0), 'kit/f0.sfz': half, 'kit/f1.sfz': half });
    expect(
      await refusal(
        readDocument(
          new MemoryFiles({
            ...{ [root]: include(0) + include(1) },
            'kit/f0.sfz': half,
            'kit/f1.sfz': half,
          }),
          root,
        ),
      ),
    ).toBe('sfz-too-large text');
    expect((await readDocument(disk, root)).headers).toEqual([]);
    const large = new MemoryFiles({ [root]: new Uint8Array(limits.text + 9).fill(0x20) });
    expect(await refusal(readDocument(large, root))).toBe('sfz-too-large text');
    expect(large.bytesRead(root)).toBe(limits.text + 1);
  });

  test.each<readonly [string, string, string]>([
    ['a value', `<region>sample=${'x'.repeat(limits.value + 1)}`, 'value'],
    ['a name', `<region>${'x'.repeat(limits.value + 1)}=1`, 'value'],
    ['a value of a variable', `#define $a ${'x'.repeat(limits.value + 1)}`, 'value'],
    [
      'the name of a variable',
      `#define $${'x'.repeat(limits.variableName + 1)} 1`,
      'variable-name',
    ],
    ['a path', `#include "${'x/'.repeat(limits.path)}"`, 'path'],
    ['a path by variables', `#define $a ${'x'.repeat(999)}\n#include "$a$a$a$a$a"`, 'path'],
    [
      'variables',
      Array.from({ length: limits.variables + 1 }, (_, i) => `#define $v${String(i)} 1\n`).join(''),
      'variables',
    ],
    ['regions', '<region>'.repeat(limits.regions + 1), 'regions'],
    ['headers', '<group>'.repeat(limits.headers + 1), 'headers'],
    ['opcodes', `<region>${'a=1 '.repeat(limits.opcodes + 1)}`, 'opcodes'],
    ['opcodes outside headers', 'a=1 '.repeat(limits.opcodes + 1), 'opcodes'],
  ])('%s', async (_, text, what) => {
    expect(await refusal(read(text))).toBe(`sfz-too-large ${what}`);
  });

  test('regions that each take over a great many opcodes', async () => {
    const document = await read(`<group>${'a=1 '.repeat(50_000)}${'<region>'.repeat(100_000)}`);
    expect(await refusal(Promise.resolve().then(() => structureOf(document)))).toBe(
      'sfz-too-large inherited',
    );
  });
});

const megabytes = (text: string, count: number): string =>
  text.repeat(Math.ceil((count * 2 ** 20) / text.length));

/** Each would take minutes if a text were gone over again for each of its signs. */
test.each<readonly [string, string, number | string]>([
  ['a line of opcodes', `<region>${megabytes('key=60 ', 10)}`, 1],
  ['a line of comments', `<region>${megabytes('/* x */', 10)}`, 1],
  ['a long comment', `// ${megabytes('x /* ', 10)}\n<region>`, 1],
  ['a line of words', `${megabytes('word ', 10)}\n<region>`, 1],
  ['a word', `${megabytes('w', 10)}\n<region>`, 1],
  ['opening brackets', `${megabytes('<', 10)}\n<region>`, 1],
  ['a header that is never closed', `<${megabytes('w', 10)}\n<region>`, 1],
  ['a header of many letters', `<${megabytes('w', 10)}>\n<region>`, 2],
  ['opening quotes', `#include "${megabytes('" #include "', 10)}\n<region>`, 'sfz-include-missing'],
  ['hashes', `${megabytes('#', 10)}\n<region>`, 1],
  ['directives that are none', `${megabytes('#x\n', 2)}\n<region>`, 1],
  ['slashes alone', `${megabytes('/ \n', 2)}\n<region>`, 1],
  ['dollars', `${megabytes('$', 10)}\n<region>`, 1],
  ['blanks', `<region>key=1${megabytes(' ', 10)}\n<region>`, 2],
  ['lines', `<region>${megabytes('\r\n', 10)}<region>`, 2],
  ['data', `<sample>name=a base64data=${megabytes('AAAA\n', 5)}<region>`, 2],
  ['values of blanks and letters', `<region>sample=${'a '.repeat(30_000)}\n<region>`, 2],
  [
    'values of what looks like names',
    `<region>sample=${'a =b #define '.repeat(4000)}\n<region>`,
    2,
  ],
])('%s', async (_, text, outcome) => {
  if (typeof outcome === 'string') {
    expect(await refusal(read(text))).toBe(outcome);
    return;
  }
  const document = await read(text);
  expect(document.headers).toHaveLength(outcome);
  expect(document.findings.length).toBeLessThanOrEqual(21);
  expect(structureOf(document).regions.length).toBeLessThanOrEqual(2);
});

test('variables whose names begin alike are looked for in bounded time', async () => {
  const names = Array.from(
    { length: limits.variableName - 1 },
    (_, i) => `#define $${'a'.repeat(i + 1)}b 1\n`,
  );
  const value = `$${'a'.repeat(limits.variableName)}`.repeat(400);
  const document = await read(`${names.join('')}<region>\n${`x=${value}\n`.repeat(20)}`);
  expect(document.headers[0]!.opcodes).toHaveLength(20);
});

class CountingFiles extends MemoryFiles {
  lists = 0;

  override list(path: string): Promise<readonly string[]> {
    this.lists += 1;
    return super.list(path);
  }
}

test('a thousand includes in other capitals list their folders once', async () => {
  const disk = new CountingFiles({
    ...files(1000, () => ''),
    [root]: Array.from({ length: 1000 }, (_, i) => `#include "F${String(i)}.sfz"\n`).join(''),
  });
  const { findings } = await readDocument(disk, root);
  // The working folder and `kit`.
  expect(disk.lists).toBe(2);
  expect(findings).toHaveLength(21);
});
