import { describe, expect, test } from 'vitest';
import type { Inspection } from '../../src/keep/inspect.ts';
import { plainColors, type Colors } from '../../src/report/colors.ts';
import { inspectTable } from '../../src/report/inspect-table.ts';
import type { Look } from '../../src/report/look.ts';
import { displayWidth } from '../../src/report/text-width.ts';
import { bankInspection, tableInspection } from './fixtures/inspection.ts';
import { hostileNames } from './fixtures/names.ts';

const wide: Look = { colors: plainColors, ascii: false, width: null };

/** Names as a stranger's file may hold them. */
const hostile: Inspection = {
  ...tableInspection,
  instrument: {
    ...tableInspection.instrument,
    id: hostileNames[0],
    source: hostileNames[5],
  },
  player: hostileNames[1],
  articulations: hostileNames.map((name, i) => ({
    ...tableInspection.articulations[i % 2]!,
    name,
    switch: hostileNames.at(-i) ?? null,
  })),
};

const goldens = [
  ['inspect-bank-wide', bankInspection, wide],
  ['inspect-bank-80', bankInspection, { ...wide, width: 80 }],
  ['inspect-bank-60-ascii', bankInspection, { ...wide, width: 60, ascii: true }],
  ['inspect-bank-details', bankInspection, { ...wide, width: 80, details: true }],
  ['inspect-table-wide', tableInspection, wide],
  ['inspect-table-80-c3', tableInspection, { ...wide, width: 80, details: true, middleC: 3 }],
  ['inspect-hostile-100', hostile, { ...wide, width: 100, details: true }],
] as const;

test.each(goldens)('%s', async (name, which, look) => {
  await expect(inspectTable(which, look)).toMatchFileSnapshot(`${name}.golden.txt`);
});

describe.each([
  ['bank', bankInspection],
  ['table', tableInspection],
  ['hostile one', hostile],
] as const)('the %s', (_, which) => {
  test.each([40, 48, 60, 72, 80, 96, 100, 120, 160])('keeps inside %d columns', (width) => {
    for (const ascii of [false, true]) {
      const text = inspectTable(which, { ...wide, ascii, width, details: true });
      for (const line of text.split('\n')) {
        expect.soft(displayWidth(line), line).toBeLessThanOrEqual(width);
      }
    }
  });

  test('lets nothing act on the terminal but the end of a line', () => {
    for (const width of [null, 80]) {
      const text = inspectTable(which, { ...wide, width, details: true }).replaceAll('\n', '');
      expect(text).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
    }
  });
});

test('in ASCII the report itself is ASCII', () => {
  for (const which of [bankInspection, tableInspection]) {
    for (const width of [null, 80, 40]) {
      const text = inspectTable(which, { ...wide, ascii: true, width, details: true });
      expect(text).toMatch(/^[\x20-\x7e\n]*$/u);
    }
  }
});

test('with the colours taken out the report is the same', () => {
  const paint = (text: string): string => `\u001b[1m${text}\u001b[0m`;
  const colors: Colors = {
    ...{ bold: paint, dim: paint, red: paint },
    ...{ green: paint, yellow: paint, cyan: paint },
  };
  const colored = inspectTable(bankInspection, { ...wide, colors });
  expect(colored).toContain('\u001b');
  expect(colored.replace(/\u001b\[\dm/gu, '')).toBe(inspectTable(bankInspection, wide));
});

const rowOf = (which: Inspection, begins: string, look = wide): readonly string[] =>
  (
    inspectTable(which, look)
      .split('\n')
      .find((line) => line.startsWith(begins)) ?? ''
  ).split(/ {2,}/u);

test('a row: name, keys with numbers, layers, zones, samples, size', () => {
  expect(rowOf(bankInspection, '0:48')).toEqual([
    ...['0:48 Slow Tide Strings', 'E1-E7 (28-100)', '2', '96', '96', '40.1'],
  ]);
  expect(rowOf(bankInspection, 'Whole')).toEqual(['Whole instrument', '6', '518', '402', '131.0']);
});

test('of a table also switches, takes, microphones and releases', () => {
  expect(rowOf(tableInspection, 'staccato')).toEqual([
    ...['staccato', 'CC 32 0-20', 'A#1-F5 (34-77)', '1'],
    ...['4', '1', '0', '96', '96', '290.0'],
  ]);
  expect(inspectTable(bankInspection, wide)).not.toMatch(/Switch|Takes|Mics|Release/u);
});

test('keys and switches go by one name of key 60', () => {
  expect(rowOf(tableInspection, 'sustain', { ...wide, middleC: 3 }).slice(1, 3)).toEqual([
    'C-1 (12)',
    'A#0-F4 (34-77)',
  ]);
});

test('many rates are a range', () => {
  const rates = [8_000, 11_025, 22_050, 44_100, 96_000];
  const many = { ...bankInspection, instrument: { ...bankInspection.instrument, rates } };
  expect(inspectTable(many, wide)).toContain('8 000 to 96 000 Hz, 2 bytes');
});

describe('sizes of an outline', () => {
  const outlineWith = (instrument: Partial<Inspection['instrument']>): Inspection => ({
    ...tableInspection,
    instrument: { ...tableInspection.instrument, kind: 'outline', ...instrument },
    ...{ player: null, memory: null },
  });
  /** The sentence that says where sizes come from, and what follows it. */
  const aboutSizes = (which: Inspection): string =>
    inspectTable(which, wide)
      .split('\n')
      .filter((line) => /[Ss]izes/u.test(line))
      .join();

  test('by lengths, by readings, by neither', () => {
    const byLength = outlineWith({ seconds: 754.25, rates: [48_000], widths: [3] });
    const byReading = outlineWith({ seconds: null });
    const without = outlineWith({ unknownSamples: 216, bytes: 0, seconds: 0 });
    expect(aboutSizes(byLength)).toContain('computed from the lengths that the outline gives');
    expect(aboutSizes(byReading)).toContain("read off the player's display, spread evenly");
    expect(aboutSizes(without)).toContain('neither lengths nor readings');
    for (const which of [byLength, byReading, without]) {
      expect(aboutSizes(which)).not.toContain('in the file');
    }
    expect(aboutSizes(tableInspection)).toContain('in the file');
  });

  test('the same with a player', () => {
    const { player, memory } = tableInspection;
    const text = aboutSizes({ ...outlineWith({ seconds: null }), player, memory });
    expect(text).toContain('spread evenly');
    expect(text).not.toContain('in the file');
  });
});

test('layers only with details', () => {
  expect(inspectTable(tableInspection, wide)).not.toContain('CC11 127');
  const text = inspectTable(tableInspection, { ...wide, details: true });
  expect(text).toContain('CC1 64-127, CC11 127');
  expect(text).not.toContain('--verbose');
});

test('an instrument with nothing in it', () => {
  const empty: Inspection = {
    ...tableInspection,
    instrument: { ...tableInspection.instrument, zones: 0, samples: 0, bytes: 0 },
    articulations: [],
  };
  expect(inspectTable(empty, { ...wide, details: true })).toContain('There are no layers.');
  expect(rowOf(empty, 'Whole').at(-1)).toBe('0');
});
