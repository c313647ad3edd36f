import { describe, expect, test } from 'vitest';
import type { Diff } from '../../src/keep/compare/diff.ts';
import { plainColors } from '../../src/report/colors.ts';
import { diffCsv } from '../../src/report/diff-csv.ts';
import { diffTable } from '../../src/report/diff-table.ts';
import type { Look } from '../../src/report/look.ts';
import { displayWidth } from '../../src/report/text-width.ts';
import { diff, diffWithoutBytes, sameDiff } from './fixtures/diff.ts';
import { hostileNames } from './fixtures/names.ts';

const wide: Look = { colors: plainColors, ascii: false, width: null };

/** Names as a stranger's file may hold them. */
const hostile: Diff = {
  ...diff,
  from: { ...diff.from, path: hostileNames[0] },
  instruments: diff.instruments.map((one, i) => ({
    ...one,
    id: hostileNames[i % hostileNames.length]!,
    source: hostileNames.at(-i)!,
    machine: { from: hostileNames[0], to: hostileNames[i % 2]! },
    copiesLoaded: hostileNames,
    copies: one.copies.map((copy, j) => ({
      name: hostileNames[j % hostileNames.length]!,
      load: copy.load.map((zone) => ({ ...zone, articulations: [hostileNames[2]] })),
      unload: hostileNames.map((name, zone) => ({
        zone,
        key: null,
        samples: [name],
        articulations: hostileNames,
        place: null,
      })),
    })),
  })),
  machines: diff.machines.map((machine, i) => ({ ...machine, id: hostileNames[i] ?? '' })),
};

/** More instruments than anybody reads through, and one with very many layers. */
const large: Diff = {
  ...diff,
  instruments: Array.from({ length: 20 }, (_, i) => ({
    ...diff.instruments[0]!,
    id: `horns-${String(i)}`,
    load: { ...diff.instruments[0]!.load, zones: i },
    copies: Array.from({ length: 20 }, (_copy, j) => ({
      name: `Hn ${String(j)}`,
      load: diff.instruments[0]!.copies[0]!.load.map((zone) => ({ ...zone, zone: j })),
      unload: [],
    })),
  })),
};

const goldens = [
  ['diff-wide', diff, wide],
  ['diff-80', diff, { ...wide, width: 80 }],
  ['diff-60-ascii', diff, { ...wide, width: 60, ascii: true }],
  ['diff-without-bytes-80', diffWithoutBytes, { ...wide, width: 80 }],
  ['diff-hostile-100', hostile, { ...wide, width: 100 }],
  ['diff-same-80', sameDiff, { ...wide, width: 80 }],
] as const;

test.each(goldens)('%s', async (name, which, look) => {
  await expect(diffTable(which, look)).toMatchFileSnapshot(`${name}.golden.txt`);
});

describe.each([
  ['usual', diff],
  ['hostile', hostile],
  ['large', large],
  ['unknown', diffWithoutBytes],
] as const)('the %s diff', (_, which) => {
  test.each([40, 48, 60, 72, 80, 96, 100, 120, 160, 200])('keeps inside %d columns', (width) => {
    for (const ascii of [false, true]) {
      for (const line of diffTable(which, { ...wide, ascii, width }).split('\n')) {
        expect.soft(displayWidth(line), line).toBeLessThanOrEqual(width);
      }
    }
  });

  test('lets nothing act on the terminal but the end of a line', () => {
    for (const width of [null, 80]) {
      const text = diffTable(which, { ...wide, width }).replaceAll('\n', '');
      expect(text).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
    }
  });
});

test('in ASCII the report itself is ASCII', () => {
  for (const width of [null, 80, 40]) {
    expect(diffTable(diff, { ...wide, ascii: true, width })).toMatch(/^[\x20-\x7e\n]*$/u);
  }
});

test('if nothing differs there is one line', () => {
  expect(diffTable(sameDiff, wide)).toBe(
    'Nothing to load or unload: keep.json and keep-2.json keep the same 200 zones (900 MiB).\n',
  );
});

test('of many instruments those with most to do are shown, and all where asked for', () => {
  const some = diffTable(large, wide);
  expect(some).toContain('horns-19 (');
  expect(some).not.toContain('horns-0 (');
  expect(some).toContain('12 more instruments change');
  const all = diffTable(large, { ...wide, details: true });
  expect(all).toContain('horns-0 (');
  expect(all).not.toContain('--verbose');
});

test('CSV has a row for each zone, with its machine', () => {
  const lines = diffCsv(diff).split('\r\n');
  expect(lines[0]).toBe(
    'action,machine,instrument,copy,articulations,zone,key,keys,velocities,controllers,samples',
  );
  const zones = diff.instruments.flatMap(({ copies }) =>
    copies.flatMap(({ load, unload }) => [...load, ...unload]),
  );
  expect(lines).toHaveLength(1 + zones.length + 1);
  expect(lines).toContain(
    'load,a,horns,Hn 1,sustain,7,,60 to 62,96 to 127,CC1 64 to 127,sustain 7.wav',
  );
  expect(lines).toContain('unload,a,harp,,0:46 Harp,0,,36 to 38,1 to 127,,0:46 Harp 0.wav');
  expect(lines).toContain('load,b,harp,,0:46 Harp,1,,41 to 43,1 to 127,,0:46 Harp 1.wav');
});
