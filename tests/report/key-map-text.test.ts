import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { KeyMap } from '../../src/keep/key-map/key-map.ts';
import { plainColors } from '../../src/report/colors.ts';
import { keyMapText } from '../../src/report/key-map-text.ts';
import type { Look } from '../../src/report/look.ts';
import { displayWidth } from '../../src/report/text-width.ts';
import { plainMap, plannedMap, row, widestMap } from './fixtures/key-map.ts';
import { hostileNames } from './fixtures/names.ts';

const piped: Look = { colors: plainColors, ascii: false, width: null };
const title = { title: 'Keys and layers' };

const lines = (map: KeyMap, look: Look = piped, marked: number | null = null) =>
  keyMapText(map, look, { ...title, marked });

/** The line that begins so. */
const drawn = (map: KeyMap, begins: string, look: Look = piped): string =>
  lines(map, look).find((line) => line.startsWith(begins)) ?? '';

test('every state has its own place under the ruler', () => {
  // Keys 33-77 begin in column 30: C2 (36) is in column 33, C3 (48) in 45, key 50 in 47.
  expect(lines(plannedMap, piped, 50)).toMatchInlineSnapshot(`
    [
      "Keys and layers",
      "",
      "                                 C2 36       C3 48       C4 60       C5 72",
      "                                 |           | ▾         |           |",
      "sustain",
      "  CC1 64-127                  ░░░░░░░░???????██████████████████████████████",
      "  velocity 1-90 and CC1 0-63  ········                   ██████████████████",
      "  on release                                 ? █",
      "staccato                         ·····································",
      "pedal noise",
      "  by a message",
      "",
      "█ stays: notes reach it, ? stays: reached only if a doubt holds, ░ stays without a note, · goes.",
      "A character is one key. ▾ is D3 (50).",
    ]
  `);
});

test('in ASCII, key 60 as C3, two keys in one place', () => {
  const look = { ...piped, ascii: true, width: 52, middleC: 3 };
  expect(lines(plannedMap, look, 50)).toMatchInlineSnapshot(`
    [
      "Keys and layers",
      "",
      "                               C1 36 C2 48 C3 60",
      "                               |     |v    |     |",
      "sustain",
      "  CC1 64-127                 ++++????###############",
      "  velocity 1...and CC1 0-63  .....         #########",
      "  on release                         ?#",
      "staccato                       ...................",
      "pedal noise",
      "  by a message",
      "",
      "# stays: notes reach it, ? stays: reached only if a",
      "doubt holds, + stays without a note, . goes.",
      "A character is 2 keys, and shows the first of these",
      "that any of them is. v is D2 (50).",
    ]
  `);
});

test('without a plan there is one sign, and the legend names no other', () => {
  const text = lines(plainMap).join('\n');
  expect(text).toContain('█ a zone starts here.');
  expect(text).not.toMatch(/[?░·]/u);
});

test('all 128 keys at 80 columns: two in a place, and the first state that fits is shown', () => {
  const look = { ...piped, width: 80 };
  const line = drawn(widestMap, 'Dockside Kit', look);
  // 64 places: keys 0 and 1 show what key 0 is, the last two what key 127 is.
  expect(line.slice(-64)).toBe(`█${'·'.repeat(62)}?`);
  expect(lines(widestMap, look).at(-1)).toContain('A character is 2 keys');
  expect(drawn(widestMap, 'Dockside Kit').slice(-128)).toBe(`█${'·'.repeat(126)}?`);
  expect(lines(widestMap).at(-1)).toBe('A character is one key.');
});

const range = fc
  .tuple(fc.integer({ min: 0, max: 127 }), fc.integer({ min: 0, max: 127 }))
  .map(([a, b]): [number, number] => [Math.min(a, b), Math.max(a, b)]);

test('each key is where the ruler says, in any width', () => {
  fc.assert(
    fc.property(
      range,
      fc.integer({ min: 0, max: 127 }),
      fc.option(fc.integer({ min: 40, max: 160 })),
      (keys, other, width) => {
        const own = Math.min(Math.max(other, keys[0]), keys[1]);
        const one = { keys: [own, own] as const, zones: 1, kept: 1, state: 'kept' as const };
        const map: KeyMap = {
          keys,
          articulations: [
            { articulation: 0, name: 'x', switch: null, rows: [row([{ ...one, reasons: [] }])] },
          ],
        };
        const text = lines(map, { ...piped, width }, own);
        const [ticks, drawing] = [text[3] ?? '', text[4] ?? ''];
        expect(drawing.indexOf('█')).toBe(ticks.indexOf('▾'));
        expect(drawing.match(/█/gu)).toHaveLength(1);
        // Each name stands above its line.
        for (const found of (text[2] ?? '').matchAll(/C(-?\d+) (\d+)/gu)) {
          expect(Number(found[2])).toBe((Number(found[1]) + 1) * 12);
          expect(ticks[found.index]).toMatch(/[|▾]/u);
        }
        for (const line of text) expect(displayWidth(line)).toBeLessThanOrEqual(width ?? 200);
      },
    ),
    { seed: 9, numRuns: 300 },
  );
});

const large: KeyMap = {
  keys: [48, 60],
  articulations: hostileNames.map((name, articulation) => ({
    ...{ articulation, name, switch: null },
    rows: Array.from({ length: 4 }, (_, i) => ({
      ...plannedMap.articulations[0]!.rows[0]!,
      velocity: [i * 30 + 1, i * 30 + 30] as const,
    })),
  })),
};

test('a large map comes where details are asked for; else it says how', () => {
  expect(hostileNames.length * 4).toBeGreaterThan(24);
  expect(lines(large)).toEqual([
    `Keys and layers: ${hostileNames.length * 4} rows, with --verbose.`,
  ]);
  expect(lines(large, { ...piped, details: true }).length).toBeGreaterThan(hostileNames.length * 5);
});

test('nothing where no key starts anything', () => {
  expect(lines({ keys: null, articulations: [] })).toEqual([]);
  expect(lines({ ...plannedMap, keys: null })).toEqual([]);
});

describe('names as a stranger may have written them', () => {
  test.each([40, 60, 80, 120, null])('in %s columns', (width) => {
    for (const ascii of [false, true]) {
      for (const line of lines(large, { ...piped, width, ascii, details: true })) {
        expect(line).not.toMatch(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u);
        if (width !== null) expect(displayWidth(line)).toBeLessThanOrEqual(width);
      }
    }
  });
});

test('colours repeat what the shapes say, and ASCII is ASCII', () => {
  const paint = (text: string): string => `\u001b[1m${text}\u001b[22m`;
  const colors = new Proxy(plainColors, { get: () => paint });
  const painted = lines(plannedMap, { ...piped, colors }).join('\n');
  expect(painted).toContain('\u001b');
  expect(painted.replace(/\u001b\[\d+m/gu, '')).toBe(lines(plannedMap).join('\n'));
  expect(lines(plannedMap, { ...piped, ascii: true }, 50).join('')).toMatch(/^[\x20-\x7e]*$/u);
  for (const ascii of [false, true]) {
    const signs = lines(plannedMap, { ...piped, ascii })
      .at(-2)
      ?.match(/(?:^|, )(\S)(?= (?:stays|goes))/gu);
    expect(new Set(signs?.map((sign) => sign.at(-1)))).toHaveProperty('size', 4);
  }
});
