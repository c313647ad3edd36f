import fc from 'fast-check';
import { expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { largestTable } from '../../src/notation/csv.ts';
import { plainColors } from '../../src/report/colors.ts';
import { formatError } from '../../src/report/error-text.ts';
import { bytesOf, cases, errorOf, path, read, readFiles } from './reader-cases.ts';

const good = cases.filter((name) => name.startsWith('good-'));
const texts = good.map((name) => new TextDecoder().decode(bytesOf(name)));

/** What a slip of the hand, a bad copy or an attacker puts into a file. */
const splinter = fc.oneof(
  fc.constantFrom(
    ...['\t', '\n', ' ', '  ', ': ', '- ', '{', '}', '[', ']', ',', '"', "'", '#', '*', '&', '!'],
    ...['|', '>', '%', '@', '\\', '?', '<<: ', '---\n', '...\n', '\0', '\ufeff', '\u202e', '\r'],
    ...[
      '__proto__',
      'constructor',
      '~',
      'null',
      'true',
      '0',
      '-1',
      '1e999',
      '.nan',
      '0x',
      '64 GiB',
    ],
  ),
  fc.string({ maxLength: 8, unit: 'binary' }),
  fc
    .constantFrom(...texts)
    .chain((text) =>
      fc
        .tuple(fc.nat(text.length), fc.nat(60))
        .map(([from, length]) => text.slice(from, from + length)),
    ),
);

/** A good template with a few stretches of it replaced. */
const mutated = fc
  .tuple(
    fc.constantFrom(...texts),
    fc.array(fc.tuple(fc.nat(), fc.nat(12), splinter), { minLength: 1, maxLength: 4 }),
  )
  .map(([text, edits]) =>
    edits.reduce((edited, [at, length, put]) => {
      const from = at % (edited.length + 1);
      return edited.slice(0, from) + put + edited.slice(from + length);
    }, text),
  );

/** Any error that is not the template's own fails here; a place lies in the file. */
const check = async (files: MemoryFiles, text: string): Promise<void> => {
  const error = await errorOf(readFiles(files));
  if (error === null) return;
  const all = [error.finding, ...error.others];
  expect(all.length).toBeLessThanOrEqual(21);
  const lines = text.split('\n').length;
  for (const { at, file } of all) {
    if (file !== path || at === null) continue;
    expect(at.line).toBeGreaterThanOrEqual(1);
    expect(at.line).toBeLessThanOrEqual(lines + 1);
    expect(at.column).toBeGreaterThanOrEqual(1);
  }
  expect(formatError(error, { colors: plainColors, width: null })).not.toMatch(
    /undefined|\[object|NaN/u,
  );
};

const table = bytesOf('good-full', 'tracks.csv');

test('a template with slips is read, or its error says what is wrong and where', async () => {
  await fc.assert(
    fc.asyncProperty(mutated, async (text) => {
      await check(new MemoryFiles({ [path]: text, 'score/tracks.csv': table }), text);
    }),
    { numRuns: 1500 },
  );
});

test('any bytes are read, or their error says what is wrong', async () => {
  await fc.assert(
    fc.asyncProperty(fc.uint8Array({ maxLength: 200 }), async (bytes) => {
      await check(new MemoryFiles({ [path]: bytes }), new TextDecoder().decode(bytes));
    }),
    { numRuns: 500 },
  );
});

test('any table of tracks is read, or its error says what is wrong', async () => {
  const yaml = 'tracks: tracks.csv\ninstruments: { a: { file: a.sf2 } }\n';
  await fc.assert(
    fc.asyncProperty(
      fc.oneof(fc.uint8Array({ maxLength: 200 }), fc.string({ maxLength: 200 })),
      async (csv) => {
        await check(new MemoryFiles({ [path]: yaml, 'score/tracks.csv': csv }), yaml);
      },
    ),
    { numRuns: 300 },
  );
  expect(largestTable).toBeGreaterThan(200);
});

test('reading twice says the same', async () => {
  await fc.assert(
    fc.asyncProperty(mutated, async (text) => {
      const say = async (): Promise<string> => {
        const error = await errorOf(read(text));
        return error === null ? '' : formatError(error, { colors: plainColors, width: null });
      };
      expect(await say()).toBe(await say());
    }),
    { numRuns: 100 },
  );
});
