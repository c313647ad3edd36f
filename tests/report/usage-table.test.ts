import { describe, expect, test } from 'vitest';
import type { NoteUsage } from '../../src/playback/note-usage.ts';
import { plainColors, type Colors } from '../../src/report/colors.ts';
import type { Look } from '../../src/report/look.ts';
import { displayWidth } from '../../src/report/text-width.ts';
import { usageTable } from '../../src/report/usage-table.ts';
import { hostileNames } from './fixtures/names.ts';
import { usage } from './fixtures/usage.ts';

const wide: Look = { colors: plainColors, ascii: false, width: null };
const [first, second, third] = usage.cues as [
  NoteUsage['cues'][number],
  NoteUsage['cues'][number],
  NoteUsage['cues'][number],
];

const hostile: NoteUsage = {
  ...usage,
  cues: [
    {
      ...first,
      id: hostileNames[0],
      files: hostileNames.slice(0, 3).map((path) => ({ path, sha256: 'f'.repeat(64) })),
      parts: hostileNames.map((trackName, track) => ({
        ...(first.parts[track % 4] ?? (first.parts[0] as never)),
        track,
        trackName,
      })),
    },
    second,
  ],
};

const goldens = [
  ['usage-wide', usage, wide],
  ['usage-80', usage, { ...wide, width: 80 }],
  ['usage-60-ascii', usage, { ...wide, width: 60, ascii: true }],
  ['usage-wide-ascii-c3', { ...usage, cues: [first] }, { ...wide, ascii: true, middleC: 3 }],
  ['usage-hostile-100', hostile, { ...wide, width: 100 }],
] as const;

test.each(goldens)('%s', async (name, which, look) => {
  await expect(usageTable(which, look)).toMatchFileSnapshot(`${name}.golden.txt`);
});

describe.each([
  ['plain', usage],
  ['hostile', hostile],
] as const)('the %s usage', (_, which) => {
  test.each([40, 60, 72, 80, 96, 100, 120, 160, 200])('keeps inside %d columns', (width) => {
    for (const ascii of [false, true]) {
      const lines = usageTable(which, { ...wide, ascii, width }).split('\n');
      for (const line of lines) {
        expect.soft(displayWidth(line), line).toBeLessThanOrEqual(width);
      }
    }
  });

  test('lets nothing act on the terminal but the end of a line', () => {
    const text = usageTable(which, wide).replaceAll('\n', '');
    expect(text).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
  });
});

test('with the colours taken out the report is the same', () => {
  const paint = (text: string): string => `\u001b[1m${text}\u001b[0m`;
  const colors: Colors = {
    bold: paint,
    dim: paint,
    red: paint,
    green: paint,
    yellow: paint,
    cyan: paint,
  };
  const colored = usageTable(usage, { ...wide, colors });
  expect(colored.replace(/\u001b\[\dm/gu, '')).toBe(usageTable(usage, wide));
});

test('columns that nothing uses are not made', () => {
  const parts = first.parts.map((part) => ({
    ...part,
    channel: 1,
    programs: [],
    controllers: [],
    likelySwitches: [],
  }));
  const text = usageTable({ ...usage, cues: [{ ...first, parts }] }, wide);
  expect(text).not.toMatch(/Programs|Controllers|switches|Channel 10/u);
});

test('one cue is its own reel', () => {
  expect(usageTable({ ...usage, cues: [first] }, wide)).not.toContain('The whole reel');
  expect(usageTable(usage, wide)).toContain('The whole reel');
});

test('what could not be read has no figures', () => {
  const text = usageTable({ ...usage, cues: [first, third] }, wide);
  expect(text).toContain('2m1 could not be read: what it plays is unknown.');
  expect(text).toMatch(/^2m1 +\? +\? +\? +\? {2}NOT READ$/mu);
});

test('no cues', () => {
  expect(usageTable({ ...usage, cues: [] }, wide)).toBe('No cues.\n');
});
