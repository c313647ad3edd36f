import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { InputError } from '../../../src/terms/errors.ts';
import { emptyLedger, type Ledger } from '../../../src/trim/worklist/ledger/ledger.ts';
import { ledgerProgress } from '../../../src/trim/worklist/ledger/ledger.ts';
import { readLedger } from '../../../src/trim/worklist/ledger/read-ledger.ts';
import { tick } from '../../../src/trim/worklist/ledger/tick.ts';
import { writeLedger } from '../../../src/trim/worklist/ledger/write-ledger.ts';

const read = (text: string): Ledger => readLedger(new TextEncoder().encode(text), 'loaded.csv');

/** Codes with line and column, in the order they are told. */
const faultsOf = (act: () => unknown): readonly string[] => {
  try {
    act();
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    return [error.finding, ...error.others].map(
      ({ code, at }) => `${code} ${String(at?.line ?? '-')}:${String(at?.column ?? '-')}`,
    );
  }
  return [];
};

const errorOf = (act: () => unknown): InputError['finding'] => {
  try {
    act();
  } catch (error) {
    if (error instanceof InputError) return error.finding;
    throw error;
  }
  throw new Error('nothing was refused');
};

describe('as a spreadsheet saves it', () => {
  const sheet =
    '\ufeffDone;Bytes;Who;Action;NUMBER; note \r\n' +
    'TRUE;1,24 GiB;Ada;unload horns/sustain: 0-11 #0a1b2c3d;1;"first; of ""all"""\r\n' +
    ';;;;;\r\n' +
    "x;1240000;;unload horns@Hn 1: 12 #0a1b2c3d;3;'=SUM(A1)\r\n" +
    ';;"two\r\nlines";load oboe: 4 #0a1b2c3d;2;\r\n' +
    'Void;;;unload flute: 0 #0a1b2c3d;4;\r\n' +
    'No;;;unload flute: 1 #0a1b2c3d;5;\r\n';

  test('columns in any order, cells of others, all ways to say yes', () => {
    const { delimiter, headings, entries } = read(sheet);
    expect(delimiter).toBe(';');
    expect(headings).toEqual(['Done', 'Bytes', 'Who', 'Action', 'NUMBER', 'note']);
    expect(
      entries.map(({ number, state, seen, note, key }) => [
        ...[number, state, seen, note, key.does, key.instrument, key.copy],
      ]),
    ).toEqual([
      // 1.24 GiB is 1.24 x 2^30 bytes (IEC 80000-13), rounded.
      [1, 'done', 1_331_439_862, 'first; of "all"', 'unload', 'horns', null],
      [3, 'done', 1_240_000, '=SUM(A1)', 'unload', 'horns', 'Hn 1'],
      [2, 'open', null, '', 'load', 'oboe', null],
      [4, 'void', null, '', 'unload', 'flute', null],
      [5, 'open', null, '', 'unload', 'flute', null],
    ]);
    expect(ledgerProgress(read(sheet))).toEqual({ done: 2, open: 2 });
  });

  test('is written with its own divider, columns and words, formulas defused', () => {
    expect(writeLedger(read(sheet))).toBe(
      'Done;Bytes;Who;Action;NUMBER;note\r\n' +
        'TRUE;1,24 GiB;Ada;unload horns/sustain: 0-11 #0a1b2c3d;1;"first; of ""all"""\r\n' +
        "x;1240000;;unload horns@Hn 1: 12 #0a1b2c3d;3;'=SUM(A1)\r\n" +
        ';;"two\r\nlines";load oboe: 4 #0a1b2c3d;2;\r\n' +
        'Void;;;unload flute: 0 #0a1b2c3d;4;\r\n' +
        'No;;;unload flute: 1 #0a1b2c3d;5;\r\n',
    );
  });

  test('a tick changes one word', () => {
    const text = writeLedger(tick(read(sheet), { done: [2, 4, 3], undo: [1] }, null));
    expect(text.split('\r\n').filter((line) => /;(?:1|2|3|4);/u.test(line))).toEqual([
      ';1,24 GiB;Ada;unload horns/sustain: 0-11 #0a1b2c3d;1;"first; of ""all"""',
      "x;1240000;;unload horns@Hn 1: 12 #0a1b2c3d;3;'=SUM(A1)",
      // Its row begins within a cell of two lines.
      'lines";load oboe: 4 #0a1b2c3d;2;',
      'yes;;;unload flute: 0 #0a1b2c3d;4;',
    ]);
    expect(text).toContain('yes;;"two');
  });

  test.each([
    ['yes', 'done'],
    ['YES', 'done'],
    [' X ', 'done'],
    ['true', 'done'],
    ['1', 'done'],
    ['Done', 'done'],
    ['', 'open'],
    ['no', 'open'],
    ['FALSE', 'open'],
    ['0', 'open'],
    ['void', 'void'],
  ])('%j is %s', (word, state) => {
    const [entry] = read(`number,action,done\n1,unload a: 0 #0a1b2c3d,"${word}"\n`).entries;
    expect(entry!.state).toBe(state);
  });

  test.each(['ja', 'y', '2', 'maybe', 'constructor'])('%j is neither yes nor no', (word) => {
    const text = `number,action,done\n1,unload a: 0 #0a1b2c3d,${word}\n`;
    expect(faultsOf(() => read(text))).toEqual(['ledger-done 2:25']);
  });

  test('names beyond ASCII bring a byte order mark, so that spreadsheets read them', () => {
    const text = writeLedger(read('number,action,done\n1,unload Hörner: 0 #0a1b2c3d,\n'));
    expect(text.startsWith('\ufeffnumber,')).toBe(true);
    expect(writeLedger(read(text))).toBe(text);
  });

  test('columns that are not there are added, and cells that are not written', () => {
    expect(writeLedger(read('number\taction\tdone\n1\tunload a: 0 #0a1b2c3d\n'))).toBe(
      'number\taction\tdone\tbytes\tnote\r\n1\tunload a: 0 #0a1b2c3d\t\t\t\r\n',
    );
    expect(writeLedger(emptyLedger)).toBe('number,action,done,bytes,note\r\n');
    expect(read(writeLedger(emptyLedger)).entries).toEqual([]);
  });
});

describe('what is no record', () => {
  test.each<readonly [string, readonly string[]]>([
    ['', ['ledger-empty -:-']],
    ['\n\n', ['ledger-empty -:-']],
    ['{"schema":"keepset/plan@1"}', ['ledger-unreadable 1:2']],
    ['cues: cues\n', ['number', 'action', 'done'].map(() => 'ledger-column-missing 1:1')],
    ['number,action\n1,unload a: 0 #0a1b2c3d\n', ['ledger-column-missing 1:1']],
    ['number,action,done,Number\n', ['ledger-column-twice 1:20']],
    ['number,action,done\n1,"unload a: 0 #0a1b2c3d,\n', ['ledger-unreadable 2:3']],
    ['number,action,done\n1,unload a: 0 #0a1b2c3d,,,,b\n', ['ledger-row-long 2:28']],
    ['number,action,done\n0,unload a: 0 #0a1b2c3d,\n', ['ledger-number 2:1']],
    ['number,action,done\n1.5,unload a: 0 #0a1b2c3d,\n', ['ledger-number 2:1']],
    ['number,action,done\n1e99,unload a: 0 #0a1b2c3d,\n', ['ledger-number 2:1']],
    ['number,action,done\n9999999999,unload a: 0 #0a1b2c3d,\n', ['ledger-number 2:1']],
    [
      'number,action,done\n,,a remark\n',
      ['number 2:1', 'action 2:2', 'done 2:3'].map((x) => `ledger-${x}`),
    ],
    [
      'number,action,done,bytes\n1,unload a: 0 #0a1b2c3d,,lots\n1,drop,?,-4\n',
      [
        'ledger-bytes 2:26',
        'ledger-number-twice 3:1',
        'ledger-action 3:3',
        'ledger-done 3:8',
        'ledger-bytes 3:10',
      ],
    ],
  ])('%j', (text, faults) => {
    expect(faultsOf(() => read(text))).toEqual(faults);
  });

  test('of very many faults the first are told and the rest counted', () => {
    const faults = faultsOf(() =>
      read(`number,action,done\n${'x,unload a: 0 #0a1b2c3d,\n'.repeat(5000)}`),
    );
    expect(faults).toHaveLength(101);
    expect(faults.at(-1)).toBe('ledger-more-errors -:-');
  });

  test('any bytes: an error of its own, or a record that is written and read again', () => {
    const bytes = fc.oneof(
      fc.uint8Array({ maxLength: 60 }),
      fc
        .array(
          fc.constantFrom(
            ...['1', '2', 'unload a: 0 #0a1b2c3d', '=x', "'=x", 'yes', '"', ',', ';', '\n', ' '],
          ),
          { maxLength: 20 },
        )
        .map((parts) => new TextEncoder().encode(`number,action,done,note\n${parts.join('')}`)),
    );
    fc.assert(
      fc.property(bytes, (some) => {
        let ledger: Ledger;
        try {
          ledger = readLedger(some, 'loaded.csv');
        } catch (error) {
          expect(error).toBeInstanceOf(InputError);
          return;
        }
        const text = writeLedger(ledger);
        expect(writeLedger(read(text))).toBe(text);
        const bare = ({ number, key, state, seen, note }: Ledger['entries'][number]) => [
          ...[number, key, state, seen, note],
        ];
        expect(read(text).entries.map(bare)).toEqual(ledger.entries.map(bare));
      }),
    );
  });
});

test('notes and cells of others come back as they were, whatever is in them', () => {
  const text = fc.string({ unit: fc.constantFrom(...'=+-@\'", ;\t\nab é'), maxLength: 6 });
  fc.assert(
    fc.property(
      fc.array(fc.tuple(text, text), { maxLength: 4 }),
      fc.constantFrom<',' | ';' | '\t'>(',', ';', '\t'),
      (rows, delimiter) => {
        const headings = ['number', 'action', 'done', 'bytes', 'note', 'mine'];
        const ledger: Ledger = {
          ...{ ...emptyLedger, delimiter, headings },
          entries: rows.map(([note, mine], i) => ({
            number: i + 1,
            key: {
              ...{ does: 'unload', instrument: 'a', copy: null, spare: 0, part: [] },
              zones: [[i, i]],
              fingerprint: '0a1b2c3d',
            },
            ...{ state: 'open', seen: null, note, at: null },
            cells: ['', '', '', '', note, mine],
          })),
        };
        const undefused = (cell: string): string => cell.replace(/^'(?=[=+\-@\t\r])/u, '');
        expect(read(writeLedger(ledger)).entries.map(({ cells }) => cells.slice(4))).toEqual(
          rows.map((row) => row.map(undefused)),
        );
      },
    ),
  );
});

describe('ticks', () => {
  const ledger = read(
    'number,action,done\n1,unload a: 0-1 #0a1b2c3d,void\n2,unload a: 0 #0a1b2c3d,yes\n3,load a: 0 #0a1b2c3d,yes\n5,unload b: 0 #0a1b2c3d,\n',
  );

  test('numbers that are not there are named, and those that are', () => {
    const { code, args } = errorOf(() => tick(ledger, { done: [4, 5, 6], undo: [9] }, null));
    expect({ code, args }).toEqual({
      code: 'ledger-number-unknown',
      args: {
        numbers: ['4', '6', '9'],
        there: ['1-3', '5'],
      },
    });
  });

  test('what is done counts in the order of numbers, so none is put before its contrary', () => {
    const { code, args } = errorOf(() => tick(ledger, { done: [1], undo: [] }, null));
    expect({ code, args }).toEqual({
      code: 'ledger-tick-late',
      args: { number: 1, later: 3 },
    });
    const { entries } = tick(ledger, { done: [1, 5], undo: [3] }, null);
    expect(entries.map(({ state }) => state)).toEqual(['done', 'done', 'open', 'done']);
  });
});
