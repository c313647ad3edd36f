import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { canonicalName } from '../../src/instruments/sfz/text/aliases.ts';
import type { Place, SfzDocument } from '../../src/instruments/sfz/text/document.ts';
import { readDocument } from '../../src/instruments/sfz/text/read-document.ts';
import { structureOf } from '../../src/instruments/sfz/structure/regions.ts';
import { messageOf } from '../../src/report/messages.ts';
import { InputError } from '../../src/terms/errors.ts';
import { outline } from '../instruments/sfz/reading.ts';

/** Reads a hostile instrument: it is refused with an InputError, or the document holds together. */
const survives = async (
  text: string | Uint8Array,
  included: string | Uint8Array,
): Promise<'read' | 'refused'> => {
  const files = new MemoryFiles({ 'kit/kit.sfz': text, 'kit/a.sfz': included, 'kit/B.sfz': '' });
  try {
    const document = await readDocument(files, 'kit/kit.sfz');
    checkPlaces(document);
    checkStructure(document);
    return 'read';
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    for (const finding of [error.finding, ...error.others]) {
      expect(finding).toMatchObject({ severity: 'error' });
      expect(['kit/kit.sfz', 'kit/a.sfz', 'kit/B.sfz']).toContain(finding.file);
      expect(messageOf(finding).message).not.toMatch(/[\p{Cc}\p{Cf}]/u);
    }
    return 'refused';
  }
};

/** Line and column of an offset, counted anew. */
const lineAndColumn = (text: string, offset: number): readonly [number, number] => {
  const lines = text.slice(0, offset).split(/\r\n|\r|\n/u);
  return [lines.length, [...lines.at(-1)!].length + 1];
};

const checkPlaces = ({ files, headers }: SfzDocument): void => {
  const covered = ({ file, start, end, line, column }: Place): string => {
    const { text } = files[file]!;
    expect([line, column]).toEqual(lineAndColumn(text, start));
    return text.slice(start, end);
  };
  for (const header of headers) {
    expect(covered(header.place)).toBe(`<${header.name}>`);
    for (const { name, value, place } of header.opcodes) {
      const written = covered(place);
      const sign = written.indexOf('=');
      expect(written.slice(0, sign)).toMatch(/^[\w$]+$/u);
      expect(written).not.toMatch(/[ \t\r\n]$/u);
      if (!written.slice(0, sign).includes('$')) {
        expect(name).toBe(canonicalName(written.slice(0, sign)));
      }
      if (name === 'base64data' || !written.slice(sign).includes('$')) {
        expect(value).toBe(written.slice(sign + 1));
      }
      if (name !== 'base64data') expect(value).not.toMatch(/[$\r\n]|[ \t]$/u);
    }
  }
};

const checkStructure = (document: SfzDocument): void => {
  const structure = structureOf(document);
  const regions = document.headers.filter(({ name }) => name === 'region');
  expect(structure.regions.map(({ place }) => place)).toEqual(regions.map(({ place }) => place));
  const known = new Set(document.headers.flatMap(({ opcodes }) => opcodes));
  for (const [i, { number, opcodes, control }] of structure.regions.entries()) {
    expect(number).toBe(i);
    expect(opcodes.every((opcode) => known.has(opcode))).toBe(true);
    expect(opcodes.slice(opcodes.length - regions[i]!.opcodes.length)).toEqual(regions[i]!.opcodes);
    expect(Number.isInteger(control.noteOffset + control.switchOffset)).toBe(true);
  }
  for (const value of structure.initial.values()) {
    expect(Number.isInteger(value) && value >= 0 && value <= 127).toBe(true);
  }
  for (const values of structure.curves.values()) {
    expect(values.filter(Number.isFinite)).toHaveLength(128);
  }
  for (const finding of [...document.findings, ...structure.findings]) {
    expect(messageOf(finding).message).not.toMatch(/[\p{Cc}\p{Cf}]/u);
  }
};

const good = [
  '// \u{1d11e} a small kit',
  '<control> default_path=a\\b/ note_offset=1 set_cc1=64 set_hdcc2=0.5',
  '#define $k 60 #define $kk 61',
  '<global> sw_default=c4 /* none */ <master>lovel=1',
  '<group>loopmode=one_shot sample=My wave, no. 1.wav',
  '<region>key=$k #include "a.sfz" hikey=$kk<region>locc$k=1 hicc1=90',
  '<curve>curve_index=7 v000=0 v064=0.5',
  '<sample>name=a.wav base64data=UklG\nRg==',
  '<region>sample=*silence end=-1',
].join('\n');
const goodIncluded = 'lovel=5\r\n<region> $kind=1 tune=-5 #define $kind xfin_locc1';

const snippets = fc.constantFrom(
  ...['<', '>', '<region>', '<group>', '<control>', '<global>', '<REGION>', '<sample>', '<curve>'],
  ...['=', '$', '$k', '$kk', '#', '#define ', '#define $k ', '#define $k $kk', '#define $kk $k'],
  ...['#include "a.sfz"', '#include "b.sfz"', '#include "kit.sfz"', '#include "', '"', '\\', '../'],
  ...['/', '//', '/*', '*/', ' ', '\t', '\n', '\r', '\r\n', '\u0000', '\u001b[2J', '\u202e'],
  ...['key=60', 'lokey=', 'note_offset=1e9', 'octave_offset=-3', 'set_cc300=', '1e999', '-', '.5'],
  ...['base64data=', 'name=', 'curve_index=', 'v127=', '\ud83c', '\u{1f3b5}', 'e\u0301', '\ufeff'],
);

const edit = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  remove: fc.oneof(fc.constant(0), fc.nat({ max: 6 }), fc.nat({ max: 200 })),
  insert: snippets,
  times: fc.oneof({ weight: 20, arbitrary: fc.constant(1) }, fc.constantFrom(0, 3, 300)),
});
const edits = fc.array(edit, { maxLength: 4 });

const edited = (
  text: string,
  changes: readonly (typeof edit extends fc.Arbitrary<infer T> ? T : never)[],
): string =>
  changes.reduce((changed, { at, remove, insert, times }) => {
    const from = Math.floor(at * changed.length);
    return changed.slice(0, from) + insert.repeat(times) + changed.slice(from + remove);
  }, text);

describe('instruments that are not what they should be', () => {
  test('the one that is changed here is sound', async () => {
    expect(await survives(good, goodIncluded)).toBe('read');
  });

  test('changed texts', async () => {
    const outcomes = { read: 0, refused: 0 };
    await fc.assert(
      fc.asyncProperty(edits, edits, async (here, there) => {
        outcomes[await survives(edited(good, here), edited(goodIncluded, there))] += 1;
      }),
      { numRuns: 1000 },
    );
    expect(outcomes.read).toBeGreaterThan(300);
    expect(outcomes.refused).toBeGreaterThan(50);
  });

  test('snippets in any order', async () => {
    const text = fc.array(snippets, { maxLength: 40 }).map((parts) => parts.join(''));
    await fc.assert(
      fc.asyncProperty(text, text, (here, there) => survives(here, there).then(() => true)),
      { numRuns: 1000 },
    );
  });

  test('bytes changed, texts cut short', async () => {
    const bytes = new TextEncoder().encode(good);
    const changes = fc.array(fc.tuple(fc.nat({ max: bytes.length - 1 }), fc.nat({ max: 255 })), {
      maxLength: 6,
    });
    await fc.assert(
      fc.asyncProperty(fc.nat({ max: bytes.length }), changes, async (length, values) => {
        const changed = bytes.slice();
        for (const [at, value] of values) changed[at] = value;
        await survives(changed.subarray(0, length), goodIncluded);
      }),
      { numRuns: 400 },
    );
  });

  test('bytes of any kind', async () => {
    const bytes = fc.uint8Array({ maxLength: 200 });
    await fc.assert(
      fc.asyncProperty(bytes, bytes, (here, there) => survives(here, there).then(() => true)),
      { numRuns: 300 },
    );
  });
});

/** What may stand between two things, and what a line end has to be part of. */
const between = fc.constantFrom(
  ' ',
  '\t',
  '\n',
  '\r\n',
  '  // x=1 <region>\n',
  '/* <a> b=2 */ ',
  ' /*\n*/',
);

const word = fc.stringMatching(/^[A-Za-z0-9_#&().,*-]{1,8}$/u);
const written = fc.record({
  header: fc.constantFrom('region', 'group', 'global', 'master', 'effect'),
  opcodes: fc.array(
    fc.record({
      name: fc.stringMatching(/^[a-z_][a-z0-9_]{0,9}$/u),
      value: fc.array(word, { minLength: 1, maxLength: 3 }).map((words) => words.join(' ')),
      behind: between,
    }),
    { maxLength: 4 },
  ),
  behind: fc.oneof(fc.constant(''), between),
});

test('an instrument that is written with blanks and comments anywhere reads back', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(written, { maxLength: 6 }), async (parts) => {
      const text = parts
        .map(({ header, opcodes, behind }) =>
          [
            `<${header}>${behind}`,
            ...opcodes.map(({ name, value, behind }) => `${name}=${value}${behind}`),
          ].join(''),
        )
        .join('');
      const expected = parts.map(({ header, opcodes }) =>
        [
          `<${header}>`,
          ...opcodes.map(({ name, value }) => `${canonicalName(name)}=${value}`),
        ].join('|'),
      );
      const document = await readDocument(new MemoryFiles({ 'kit.sfz': text }), 'kit.sfz');
      expect(outline(document)).toEqual(expected);
      expect(document.findings).toEqual([]);
    }),
    { numRuns: 500 },
  );
});
