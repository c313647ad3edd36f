import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Instrument } from '../../../src/instruments/instrument.ts';
import { columnNames } from '../../../src/instruments/zone-table/columns.ts';
import { InputError } from '../../../src/terms/errors.ts';
import { readTable } from './reading.ts';

/** Reads a hostile table: it is refused with an InputError, or the instrument holds together. */
const survives = (table: string | Uint8Array): 'read' | 'refused' => {
  try {
    checkInstrument(readTable(table));
    return 'read';
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    const all = [error.finding, ...error.others];
    expect(all.length).toBeLessThanOrEqual(20);
    for (const found of all) {
      expect(found).toMatchObject({ severity: 'error', file: 'tables/harp.csv' });
    }
    return 'refused';
  }
};

const whole = (value: number, limit: number): boolean =>
  Number.isInteger(value) && value >= 0 && value < limit;

const isOnce = (names: readonly (string | null)[]): boolean =>
  new Set(names).size === names.length && !names.includes('') && !names.includes(null);

const checkInstrument = ({ zones, samples, articulations, program }: Instrument): void => {
  const layered = articulations.flatMap(({ layers }) => layers.flatMap((layer) => layer.zones));
  const faults = [
    zones.every(({ id }, i) => id === i) || 'zones are numbered',
    zones.every((zone) => zone.samples.every((one) => whole(one, samples.length))) ||
      'samples exist',
    isOnce(zones.map(({ key }) => key)) || 'each zone has a name of its own',
    isOnce(samples.map(({ name }) => name)) || 'each sample has a name of its own',
    samples.every(
      ({ frames, channels, width }) =>
        whole(frames, 2 ** 36) && whole(frames * channels * width, 2 ** 35 + 1),
    ) || 'bytes are counts',
    samples.every(({ rate }) => whole(rate, 2 ** 32) && rate > 0) || 'rates are counts',
    program.zones === zones.length || 'zones are counted',
    program.articulations === articulations.length || 'articulations are counted',
    program.starts.length === zones.length || 'each zone has a start',
    program.starts.every(
      ({ zone, articulation, gate, keys: [lo, hi], velocities: [soft, loud], fades }, i) =>
        zone === i &&
        whole(articulation, articulations.length) &&
        whole(gate, program.gates.length) &&
        whole(lo, hi + 1) &&
        hi < 128 &&
        whole(soft, loud + 1) &&
        soft > 0 &&
        loud < 128 &&
        fades.every(
          (fade) =>
            program.signals[fade.signal]?.kind === 'controller' &&
            whole(fade.lo, fade.hi + 1) &&
            fade.hi < 128,
        ),
    ) || 'starts hold together',
    program.gates.flat().every(({ signal, tests }) => {
      return whole(signal, program.signals.length) && tests.every(({ lo, hi }) => lo <= hi);
    }) || 'gates ask signals there are',
    [...layered].sort((a, b) => a - b).every((zone, i) => zone === i) || 'layers share the zones',
    layered.length === zones.length || 'each zone is in one layer',
  ];
  expect(faults.filter((fault) => fault !== true)).toEqual([]);
};

const good = [
  'articulation;switch;keys;velocities;controllers;sampled-key;sample;seconds;rate;bits;channels;round-robin;release;microphone;key',
  'sustain;C0;C2..C4 every 3;1-40|41-127;1:0-63|1:64-127;C3;;4,5;48 kHz;24;2;;;close|tree;sus',
  'staccato;C#0;36-60;;;;;0,9;44100;16;1;4;;;stac',
  'staccato;;36-60;;;;"one ""good"" sample";0,4;;;;2/4;yes;room;',
  ';;36|37;;11:1-127 & 7:1-127;;a|b;60 ms;;;;;note-off;;',
].join('\n');

/** What stands in cells, and what should not. */
const snippets = fc.constantFrom(
  ...[';', ',', '\t', '\n', '\r\n', '"', '""', '|', '||', '&', '..', '-', '/', ':', ' every ', ' '],
  ...['0', '1', '127', '128', '-1', '1e9', '99999999999999999999', '0,5', '0.5', '48.000', 'NaN'],
  ...['C-1', 'G9', 'G#9', 'C4', 'H3', 'program 5', 'program', 'cc 1: 0-9', 'channel 17', '4/2'],
  ...['yes', 'note-off', 'close|tree', '\0', '\ufeff', '\u202e', 'e\u0301', '\ud83c', 'TB', 'KiB'],
  ...columnNames,
);

const edit = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  remove: fc.oneof(fc.constant(0), fc.nat({ max: 6 }), fc.nat({ max: 200 })),
  insert: snippets,
  times: fc.oneof({ weight: 20, arbitrary: fc.constant(1) }, fc.constantFrom(0, 3, 400)),
});

test('changed tables are read or refused', () => {
  fc.assert(
    fc.property(fc.array(edit, { minLength: 1, maxLength: 4 }), (edits) => {
      const table = edits.reduce((text, { at, remove, insert, times }) => {
        const from = Math.floor(at * text.length);
        return text.slice(0, from) + insert.repeat(times) + text.slice(from + remove);
      }, good);
      survives(table);
    }),
    { numRuns: 800 },
  );
});

const oneOf = (...cells: readonly string[]): fc.Arbitrary<string> => fc.constantFrom(...cells);

/** Rows as people write them: wrong only where two of them do not agree. */
const usualRow = fc.record({
  articulation: oneOf('', 'legato', 'Legato', 'pizz'),
  keys: oneOf('60', 'C2-C4', '36-47|48-59', 'C2..C4 every 5'),
  velocities: oneOf('', '1-40|41-127', '0-64', '100'),
  controllers: oneOf('', '1:0-63|1:64-127', '1:0-63&11:0-63', '7:0-127'),
  sample: oneOf('', '', 'one'),
  bytes: oneOf('600', '600', '600', '1 KiB'),
  bits: oneOf('', '24'),
  channels: oneOf('', '1', '2'),
  'round-robin': oneOf('', '3', '2/4', '1|2'),
  release: oneOf('', 'yes', 'note-off'),
  microphone: oneOf('', 'close|tree', 'Close'),
  key: oneOf('', '', '', 'low', 'high/1', 'high', 'C4'),
});

test('usual tables are read, unless their rows do not agree', () => {
  const outcomes = { read: 0, refused: 0 };
  fc.assert(
    fc.property(fc.array(usualRow, { minLength: 1, maxLength: 5 }), (rows) => {
      const [first] = rows;
      const cells = [Object.keys(first!), ...rows.map((row) => Object.values(row))];
      outcomes[survives(cells.map((row) => row.join(';')).join('\n'))] += 1;
    }),
    { numRuns: 400 },
  );
  expect(outcomes.read).toBeGreaterThan(40);
  expect(outcomes.refused).toBeGreaterThan(40);
});

test('tables of odd cells are read or refused', () => {
  const cell = fc.array(snippets, { maxLength: 3 }).map((parts) => parts.join(''));
  const row = fc.array(cell, { minLength: 1, maxLength: 8 });
  fc.assert(
    fc.property(
      fc.shuffledSubarray([...columnNames], { minLength: 3 }),
      fc.array(row, { maxLength: 4 }),
      (columns, rows) => {
        survives([['keys', 'bytes', ...columns], ...rows].map((all) => all.join(';')).join('\n'));
      },
    ),
    { numRuns: 300 },
  );
});

test('tables cut short and bytes changed are read or refused', () => {
  const bytes = new TextEncoder().encode(good);
  fc.assert(
    fc.property(
      fc.nat({ max: bytes.length }),
      fc.array(fc.tuple(fc.nat({ max: bytes.length - 1 }), fc.nat({ max: 255 })), { maxLength: 8 }),
      (length, changes) => {
        const changed = bytes.slice();
        for (const [at, value] of changes) changed[at] = value;
        survives(changed.subarray(0, length));
      },
    ),
    { numRuns: 300 },
  );
});

test('bytes of any kind are read or refused', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => void survives(bytes)),
    {
      numRuns: 300,
    },
  );
});

test('the table that is changed is sound', () => {
  expect(survives(good)).toBe('read');
});

/** What would take long, or all memory, if a product or a comparison were made unseen. */
test.each<[string, string]>([
  ['a hundred thousand headings', `keys,bytes,${'velocitie,'.repeat(100_000)}\n1,1\n`],
  ['a heading of a million letters', `keys,bytes,${'velo'.repeat(250_000)}\n1,1\n`],
  [
    'a key of a megabyte for many zones',
    `keys,round-robin,bytes,key\n0-127 every 1,1000,1,${'k'.repeat(2 ** 20)}\n`,
  ],
  ['a list of a million names', `keys,bytes,sample\n1,1,${'a|'.repeat(1_000_000)}a\n`],
  ['a list of a million takes', `keys,bytes,round-robin\n1,1,${'1|'.repeat(1_000_000)}1\n`],
  ['accents on one letter', `keys,bytes,articulation\n1,1,${'e' + '\u0301'.repeat(1_000_000)}\n`],
])('%s', (_, table) => {
  survives(table);
});
