import { describe, expect, test } from 'vitest';
import { plainColors } from '../../src/report/colors.ts';
import { barCell } from '../../src/report/memory-bar.ts';
import { memoryCsv } from '../../src/report/memory-csv.ts';
import { figureWords, loadTime, loadTimeCell, momentWords } from '../../src/report/memory-words.ts';
import { displayWidth } from '../../src/report/text-width.ts';
import { nothingNeeded, reelMemory, singleMemory } from './fixtures/memory.ts';
import { hostileNames } from './fixtures/names.ts';

test.each([
  [0, 'no time', '0:00'],
  [0.2, 'less than a second', '<0:01'],
  [1.2, 'about a second', '0:01'],
  [4.4, 'about 4 seconds', '0:04'],
  [59.6, 'about 1:00 minutes', '1:00'],
  [3_700, 'about 1:01:40 hours', '1:01:40'],
])('%d seconds of loading: %s', (seconds, words, cell) => {
  expect(loadTime(seconds)).toBe(words);
  expect(loadTimeCell(seconds).whole).toBe(cell);
});

test('a figure has a range where its ends read differently', () => {
  const gib = 2 ** 30;
  const figure = { bytes: 2.1 * gib, low: 1.9 * gib, high: 2.4 * gib, basis: 'fitted' } as const;
  expect(figureWords(figure)).toBe('2.10 GiB (1.90 GiB to 2.40 GiB)');
  expect(figureWords({ ...figure, low: 2.1 * gib, high: 2.1 * gib + 4096 })).toBe('2.10 GiB');
});

test('an unknown time is told', () => {
  expect(loadTimeCell(null).whole).toBe('?');
});

test('a moment is bar and beat, whole ones', () => {
  expect(momentWords({ bar: 9, beat: 2.98, seconds: 22.4, timecode: null })).toBe('9.2 (0:22)');
});

describe('a bar', () => {
  const look = { colors: plainColors, ascii: false, width: null };
  const bar = (value: number, most: number, width: number, ascii = false): string =>
    barCell(value, most, true, { ...look, ascii }).fit(width);

  test.each([
    [0, 8, '        │'],
    [1, 8, '█       │'],
    [4.5, 8, '████▌   │'],
    [8, 8, '████████│'],
    [80, 8, '████████│'],
    [0.000_1, 8, '▏       │'],
    [0, 0, '        │'],
  ])('%d of %d', (value, most, text) => {
    expect(bar(value, most, 9)).toBe(text);
  });

  test('in ASCII', () => {
    expect(bar(4, 8, 9, true)).toBe('####    |');
    expect(bar(0.01, 8, 9, true)).toBe('#       |');
  });

  test('is as long as it may be, whatever it shows', () => {
    for (let width = 8; width <= 24; width += 1) {
      for (let value = 0; value <= 40; value += 1) {
        for (const ascii of [true, false]) {
          expect(displayWidth(bar(value, 40, width, ascii))).toBe(width);
        }
      }
    }
  });
});

describe('as comma-separated values', () => {
  test('a row for each cue and instrument of which it needs something', () => {
    const rows = memoryCsv(reelMemory).split('\r\n');
    expect(rows[0]).toBe('cue,machine,instrument,bytes,low,high,basis,load,may-go,zones,fits');
    const expected = reelMemory.cues.flatMap(({ instruments }) => instruments).length;
    expect(rows.length).toBe(expected + 2);
    expect(rows).toContain(
      '2m2,b,choir,1441792000,1441792000,1441792000,computed,1441792000,0,12,no',
    );
    expect(rows).toContain(
      '1m1,a,low-strings,138412032,138412032,138412032,read,138412032,0,12,yes',
    );
  });

  test('without a budget nothing is said of fitting', () => {
    const [, first = ''] = memoryCsv(singleMemory).split('\r\n');
    expect(first).toMatch(/^2m1,default,horns,.*,12,$/u);
  });

  test('nothing needed, no row', () => {
    expect(memoryCsv(nothingNeeded).split('\r\n')).toHaveLength(2);
  });

  test('no name acts where it is opened', () => {
    const cues = reelMemory.cues.map((cue, i) => ({ ...cue, id: hostileNames[i]! }));
    const text = memoryCsv({ ...reelMemory, cues });
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
  });
});
