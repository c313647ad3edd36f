import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { findArticulation } from '../../../src/instruments/find-articulation.ts';
import type { Articulation } from '../../../src/instruments/instrument.ts';
import { readSfz } from '../../../src/instruments/sfz/read.ts';
import { checkAgainstReader } from './against-reader.ts';
import { keepSet, type Contents } from './trimming.ts';

const stubComment =
  '// These play nothing. They stand for switches and controllers of regions that are gone.';

const lines = (...all: readonly string[]): string => all.map((line) => `${line}\n`).join('');

const articulationsOf = async (contents: Contents): Promise<readonly Articulation[]> =>
  (await readSfz(new MemoryFiles(contents), 'kit.sfz', () => '')).articulations;

describe('names of switches stay with stubs', () => {
  test.each<readonly [string, readonly string[], readonly number[], readonly string[]]>([
    [
      'of all regions of a switch',
      [
        '<group> sw_last=24 sw_label=long notes',
        '<region>',
        '<group> sw_last=25 sw_label=pizz',
        '<region> key=60',
        '<region> key=61',
      ],
      [0],
      [
        '<group> sw_last=24 sw_label=long notes',
        '<region>',
        '<group> sw_last=25 sw_label=pizz',
        stubComment,
        '<global>',
        '<region> sw_last=25 hikey=-1 sample=*silence sw_label=pizz',
      ],
    ],
    [
      'of the only region that has it, where the switch stays',
      ['<region> sw_last=24 sw_label=pizz, No. 1 key=60', '<region> sw_last=24 key=61'],
      [1],
      [
        '<region> sw_last=24 key=61',
        stubComment,
        '<global>',
        '<region> sw_last=24 hikey=-1 sample=*silence sw_label=pizz, No. 1',
      ],
    ],
    [
      'not when a region that stays gives the same, by another spelling of its key',
      ['<region> sw_last=24 sw_label=pizz', '<region> sw_last=c1 sw_label=pizz'],
      [1],
      ['<region> sw_last=c1 sw_label=pizz'],
    ],
    [
      'once, where it is given first, with switches that have none before and after',
      [
        '<region> sw_last=24 sw_down=20',
        '<region> sw_last=24 sw_label=a',
        '<region> sw_last=24 sw_label=a key=61',
        '<region> sw_last=25',
        '<region>',
      ],
      [4],
      [
        '<region>',
        stubComment,
        '<global>',
        '<region> sw_last=24 sw_down=20 hikey=-1 sample=*silence',
        '<region> sw_last=24 hikey=-1 sample=*silence sw_label=a',
        '<region> sw_last=25 hikey=-1 sample=*silence',
      ],
    ],
    [
      'two of one switch: the first and the last count',
      [
        '<region> sw_last=24 sw_label=a',
        '<region> sw_last=24 sw_label=b',
        '<region> sw_last=24 sw_label=c',
        '<region>',
      ],
      [3],
      [
        '<region>',
        stubComment,
        '<global>',
        '<region> sw_last=24 hikey=-1 sample=*silence sw_label=a',
        '<region> sw_last=24 hikey=-1 sample=*silence sw_label=c',
      ],
    ],
    [
      'two of one switch, the first stays: the last is said again',
      ['<region> sw_last=24 sw_label=a', '<region> sw_last=24 sw_label=b'],
      [0],
      [
        '<region> sw_last=24 sw_label=a',
        stubComment,
        '<global>',
        '<region> sw_last=24 hikey=-1 sample=*silence sw_label=b',
      ],
    ],
    [
      'two of one switch, the last stays: nothing behind it would be the first',
      ['<region> sw_last=24 sw_label=a', '<region> sw_last=24 sw_label=b'],
      [1],
      ['<region> sw_last=24 sw_label=b'],
    ],
    [
      'under offsets, with a controller behind',
      [
        '<control> note_offset=12',
        '<region> sw_last=24 sw_label=up amplitude_oncc7=100',
        '<control> note_offset=0',
        '<region>',
      ],
      [1],
      [
        '<control> note_offset=12',
        '<control> note_offset=0',
        '<region>',
        stubComment,
        '<global>',
        '<control> note_offset=12 octave_offset=0',
        '<region> sw_last=24 hikey=-1 sample=*silence sw_label=up',
        '<region> amplitude_oncc7=100 hikey=-1 sample=*silence',
      ],
    ],
    [
      'none where nothing switches, and no empty one',
      ['<region> sw_label=a', '<region> sw_last=24 sw_label=b sw_label=', '<region>'],
      [2],
      ['<region>', stubComment, '<global>', '<region> sw_last=24 hikey=-1 sample=*silence'],
    ],
  ])('%s', async (_, before, loaded, after) => {
    for (const end of ['\n', '\r\n', '\r']) {
      const contents = { 'kit.sfz': lines(...before).replaceAll('\n', end) };
      const { texts } = await checkAgainstReader(contents, keepSet(loaded));
      expect(texts).toEqual({ 'kit.sfz': lines(...after).replaceAll('\n', end) });
    }
  });
});

describe('a name stays when it reads back the same', () => {
  const gone = '<region> sw_last=24 sw_label=$a$b$c\n<region>\n';
  test.each<readonly [string, string, string, string | null]>([
    [
      'signs that values hold',
      '',
      'a  b #1 (c) = d, x / y * "z" \\ é',
      'a  b #1 (c) = d, x / y * "z" \\ é',
    ],
    ['blanks around it', '', ' \tpizz ', 'pizz'],
    ['a variable', '#define $a piz #define $b zi', '$a$b', 'pizzi'],
    ['a comment, put together', '#define $a / #define $b /', 'x$a$b', null],
    ['an opcode, put together', '#define $a key=', 'x $a', null],
    ['a header, put together', '#define $a <region>', 'x$a', null],
    ['a directive, put together', '#define $a #define', 'x $a y', null],
  ])('%s', async (_, defines, written, label) => {
    const contents = { 'kit.sfz': `${defines}\n${gone.replace('$a$b$c', () => written)}` };
    const { texts } = await checkAgainstReader(contents, keepSet([1]));
    const stub = '<region> sw_last=24 hikey=-1 sample=*silence';
    const end = label === null ? `${stub}\n` : `${stub} sw_label=${label}\n`;
    expect(texts['kit.sfz']!.endsWith(`<global>\n${end}`)).toBe(true);
    const named = (await articulationsOf(contents)).find((one) => one.switch !== null)!;
    const again = (await articulationsOf(texts)).find((one) => one.switch === named.switch)!;
    // Without its name it goes by its key.
    expect(again.name).toBe(label === null ? named.switch : named.name);
    expect(named.name).not.toBe(named.switch);
  });

  test('not with signs that the root can not hold', async () => {
    const bytes = (text: string): Uint8Array => Uint8Array.from(text, (one) => one.charCodeAt(0));
    // Windows-1252 has é at E9 and no treble clef (from memory).
    const root = bytes('// \xe9\n#include "a.sfz"\n<region>\n');
    const label = (name: string): Contents => ({
      'kit.sfz': root,
      'a.sfz': `<region> sw_last=24 sw_label=${name}\n`,
    });
    const clef = await checkAgainstReader(label('\u{1d11e}'), keepSet([1]));
    expect(clef.texts['kit.sfz']).toMatch(/<region> sw_last=24 hikey=-1 sample=\*silence\n$/u);
    const accent = await checkAgainstReader(label('frapp\xe9'), keepSet([1]));
    expect((await articulationsOf(accent.bytes)).map(({ name }) => name)).toContain('frapp\xe9');
  });
});

/** Switches with one name each, in one region or several, some of which do not say it. */
const kits = fc
  .array(
    fc.record({
      key: fc.constantFrom(24, 25, 26, 27),
      names: fc.boolean(),
      range: fc.boolean(),
      kept: fc.constantFrom('loaded', 'silent', 'gone', 'gone'),
    }),
    { minLength: 1, maxLength: 10 },
  )
  .map((all) => ({
    keep: keepSet(
      all.flatMap(({ kept }, i) => (kept === 'loaded' ? [i] : [])),
      all.flatMap(({ kept }, i) => (kept === 'silent' ? [i] : [])),
    ),
    text: lines(
      '<group> sw_last=20 sw_label=first',
      ...all.map(
        ({ key, names, range }) =>
          `<region> key=60 ${range ? 'sw_lokey=20 sw_hikey=30 ' : ''}sw_last=${String(key)} ` +
          `sw_label=${names ? `Name of ${String(key)}` : ''}`,
      ),
    ),
  }));

test('every name of the full instrument leads to the same switch in the smaller one', async () => {
  let lost = 0;
  await fc.assert(
    fc.asyncProperty(kits, async ({ text, keep }) => {
      const before = await articulationsOf({ 'kit.sfz': text });
      const { trimmed, texts } = await checkAgainstReader({ 'kit.sfz': text }, keep);
      const after = await articulationsOf(texts);
      for (const { name, switch: key } of before) {
        expect(findArticulation(before, name).indices).toHaveLength(1);
        const [found, ...others] = findArticulation(after, name).indices;
        expect(others).toEqual([]);
        expect(after[found!]?.switch).toBe(key);
      }
      expect(after).toHaveLength(before.length);
      if (trimmed.places.some((place) => place >= trimmed.zones.size)) lost += 1;
    }),
    { numRuns: 150 },
  );
  expect(lost).toBeGreaterThan(40);
});
