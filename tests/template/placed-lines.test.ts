import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { placedLines, placedText, type InstrumentMove } from '../../src/template/placed-lines.ts';
import type { Template } from '../../src/template/template.ts';
import { bytesOf, path, readFiles } from './reader-cases.ts';

const tracks = new TextDecoder().decode(bytesOf('good-full', 'tracks.csv'));
const full = new TextDecoder().decode(bytesOf('good-full'));

const read = (text: string): Promise<Template> =>
  readFiles(new MemoryFiles({ [path]: text, 'score/tracks.csv': tracks }));

/** All but places in the file, its digest, and notes on what is of no use any longer. */
const plain = (template: Template): unknown => {
  const { sha256, findings, ...rest } = template;
  expect(sha256).not.toBe('');
  expect(findings.every(({ severity }) => severity !== 'error')).toBe(true);
  return JSON.parse(
    JSON.stringify(rest, (key, value: unknown) =>
      key === 'at'
        ? undefined
        : value instanceof Map
          ? [...(value as Map<string, unknown>)]
          : value,
    ),
  );
};

/** Reads a template before and after moves: machines are the new ones, all else is the same. */
const roundTrip = async (text: string, moves: readonly InstrumentMove[]): Promise<string> => {
  const before = await read(text);
  const after = placedText(text, moves);
  const machineOf = new Map(moves.map(({ instrument, to }) => [instrument, to]));
  const instruments = before.instruments.map((instrument) => ({
    ...instrument,
    machine: machineOf.get(instrument.id) ?? instrument.machine,
  }));
  expect(plain(await read(after))).toEqual(plain({ ...before, instruments }));
  expectLines(text, after, moves);
  return after;
};

/** Written where they are told, from the last on, they make the new text. */
const expectLines = (before: string, after: string, moves: readonly InstrumentMove[]): void => {
  const linesOf = (text: string): string[] => text.split(/\r\n|\r|\n/u);
  const lines = linesOf(before);
  for (const { line, replaces, text } of [...placedLines(before, moves)].reverse()) {
    lines.splice(replaces === 0 ? line : line - 1, replaces, text);
  }
  expect(lines).toEqual(linesOf(after));
};

describe('every way to write an entry', () => {
  const head =
    'machines: { a: { memory: 1 GiB }, "b c": { memory: 2 GiB }, 7: { memory: 3 GiB } }\n';
  const withDefault = `${head}defaults: { machine: a }\n`;

  test.each([
    [
      'a key on the same line',
      'instruments:\n  x: { file: x.sf2, machine: a } # mine\n',
      [{ line: 4, text: '  x: { file: x.sf2, machine: "b c" } # mine' }],
    ],
    [
      'no key yet, in braces',
      'instruments:\n  x: { file: x.sf2, preset: 0:1 }\n',
      [{ line: 4, text: '  x: { file: x.sf2, machine: "b c", preset: 0:1 }' }],
    ],
    [
      'braces over several lines',
      'instruments:\n  x: {\n    file: x.sf2, # the file\n    preset: 0:1\n  }\n',
      [{ line: 5, text: '    file: x.sf2, machine: "b c", # the file' }],
    ],
    [
      'braces over several lines, a value at the end of its line',
      'instruments:\n  x: {\n    file: x.sf2\n  }\n',
      [{ line: 5, text: '    file: x.sf2, machine: "b c"' }],
    ],
    [
      'one key in braces, with a comma behind',
      'instruments: { x: { "file": "x.sf2", } }\n',
      [{ line: 3, text: 'instruments: { x: { "file": "x.sf2", machine: "b c", } }' }],
    ],
    [
      'on lines of its own',
      'instruments:\n\n  x:\n\n    # the file\n    file: x.sf2\n    preset: 0:1\n',
      [{ line: 7, replaces: 0, text: '    machine: "b c"' }],
    ],
    [
      'on lines of its own, with a key',
      "instruments:\n  x:\n    machine: 'a' # here\n    file: x.sf2\n",
      [{ line: 5, text: '    machine: "b c" # here' }],
    ],
    [
      'a key on two lines',
      'instruments:\n  x:\n    machine:\n      a\n    file: x.sf2\n',
      [{ line: 6, text: '      "b c"' }],
    ],
    [
      'text on lines of its own',
      'instruments:\n  x:\n    machine: >-\n      a\n    file: x.sf2\n',
      [{ line: 5, replaces: 2, text: '    machine: "b c"' }],
    ],
    [
      'keys with a mark',
      'instruments:\n  x:\n    ? file\n    : x.sf2\n',
      [{ line: 4, replaces: 0, text: '    machine: "b c"' }],
    ],
    [
      'no line end',
      'instruments: { x: { file: x.sf2 } }',
      [{ line: 3, text: 'instruments: { x: { file: x.sf2, machine: "b c" } }' }],
    ],
  ])('%s', async (_, text, lines) => {
    const moves = [{ instrument: 'x', to: 'b c' }];
    for (const end of ['\n', '\r\n']) {
      const all = `${withDefault}${text}`.replaceAll('\n', end);
      expect(placedLines(all, moves)).toEqual(
        lines.map((line) => ({ replaces: 1, ...line, instrument: 'x' })),
      );
      const after = await roundTrip(all, moves);
      expect(after.replaceAll(end, '')).not.toMatch(/[\r\n]/u);
    }
  });

  test('ids that are numbers, for both', async () => {
    const text = `${withDefault}instruments:\n  12: { file: x.sf2 }\n  0x1: { file: y.sf2 }\n`;
    const moves = [
      { instrument: '0x1', to: '7' },
      { instrument: '12', to: '7' },
    ];
    expect(placedLines(text, moves)).toEqual([
      { line: 4, replaces: 1, instrument: '12', text: '  12: { file: x.sf2, machine: "7" }' },
      { line: 5, replaces: 1, instrument: '0x1', text: '  0x1: { file: y.sf2, machine: "7" }' },
    ]);
    await roundTrip(text, moves);
  });

  test('two on one line are told once', async () => {
    const text = `${withDefault}instruments: { x: { file: x.sf2 }, y: { machine: a, file: y.sf2 } }\n`;
    const moves = [
      { instrument: 'y', to: '7' },
      { instrument: 'x', to: 'b c' },
    ];
    const line =
      'instruments: { x: { file: x.sf2, machine: "b c" }, y: { machine: "7", file: y.sf2 } }';
    expect(placedLines(text, moves)).toEqual([
      { line: 3, replaces: 1, instrument: 'x', text: line },
    ]);
    await roundTrip(text, moves);
  });

  test('no moves', () => {
    expect(placedLines(full, [])).toEqual([]);
    expect(placedText(full, [])).toBe(full);
  });
});

test('a template with every key there is', async () => {
  const ids = ['celesta', 'drums', 'horns', 'harp'];
  await fc.assert(
    fc.asyncProperty(
      fc.uniqueArray(
        fc.record({ instrument: fc.constantFrom(...ids), to: fc.constantFrom('a', 'b') }),
        { selector: ({ instrument }) => instrument },
      ),
      async (moves) => {
        await roundTrip(full, moves);
      },
    ),
  );
});
