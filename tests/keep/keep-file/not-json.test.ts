/** What is no keep file, or no whole one, is refused by what it is and where. */
import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import { jsonFault } from '../../../src/keep/keep-file/json-fault.ts';
import { readKeepFile } from '../../../src/keep/keep-file/read-keep-file.ts';
import { changed, keepFileText, placesIn, type Json } from './places.ts';
import { smallPlan } from './plans.ts';
import { refusal, refusalOf } from './read.ts';

let text: string;
let small: Json;
beforeAll(async () => {
  text = keepFileText(await smallPlan());
  small = JSON.parse(text) as Json;
}, 60_000);

const encode = (some: string): Uint8Array => new TextEncoder().encode(some);

test('cut off at any byte', () => {
  const bytes = encode(text.replace('bank.sf2', 'böse bänk.sf2'));
  expect(refusal(bytes.subarray(0, -1))).toBeNull();
  for (let length = 0; length < bytes.length - 1; length += length < 2000 ? 1 : 37) {
    const [first] = refusal(bytes.subarray(0, length))!;
    expect(first).toMatchObject({ code: 'keep-file-json', args: { cut: true } });
  }
});

test('a byte order mark is let pass', () => {
  expect(refusal(Uint8Array.of(0xef, 0xbb, 0xbf, ...encode(text)))).toBeNull();
});

test.each([
  ['{\n  "schema": keepset\n}', { line: 2, column: 13 }],
  ['{"a": 1,}', { line: 1, column: 9 }],
  ['[1 2]', { line: 1, column: 4 }],
  ["{'a': 1}", { line: 1, column: 2 }],
  ['{"a": "\n"}', { line: 1, column: 8 }],
  ['{"a": 01}', { line: 1, column: 8 }],
  ['{"a": 1}}', { line: 1, column: 9 }],
  ['{"a": "\\x"}', { line: 1, column: 9 }],
  ['zone,key\n1,C4\n', { line: 1, column: 1 }],
])('%j is told by its place', (some, at) => {
  expect(refusal(encode(some))).toEqual([
    expect.objectContaining({ code: 'keep-file-json', args: { cut: false }, at }),
  ]);
});

test('text in another encoding is told by its place', () => {
  const latin1 = Uint8Array.from(Buffer.from('{\n  "a": "Bläser"\n}', 'latin1'));
  const [found] = refusal(latin1)!;
  expect(found).toMatchObject({ code: 'keep-file-json', at: { line: 2, column: 11 } });
  const utf16 = Uint8Array.from(Buffer.from(`\ufeff${text}`, 'utf16le'));
  expect(refusal(utf16)![0]).toMatchObject({ code: 'keep-file-json', args: { cut: false } });
});

test('too large a file is refused unread', () => {
  expect(refusal(new Uint8Array(500 * 2 ** 20 + 1))).toEqual([
    expect.objectContaining({ code: 'keep-file-large', args: { bytes: 500 * 2 ** 20 + 1 } }),
  ]);
});

test('lists in lists in lists', () => {
  const deep = 200_000;
  expect(refusal(encode('['.repeat(deep)))![0]).toMatchObject({ args: { cut: true } });
  expect(refusal(encode('['.repeat(deep) + ']'.repeat(deep)))).not.toBeNull();
  const within = text.replace('"without": []', `"without": ${'['.repeat(deep)}${']'.repeat(deep)}`);
  expect(refusal(encode(within))).not.toBeNull();
});

describe('another kind of file', () => {
  test.each([
    [{ schema: 'keepset/usage@1' }, 'keepset/usage@1'],
    [{ schema: 'keepset/error@1' }, 'keepset/error@1'],
    [{ schema: 'keepset/plan@2' }, 'keepset/plan@2'],
    [{ schema: 7 }, null],
    [{}, null],
    [[], null],
    [null, null],
    ['keepset/plan@1', null],
    [['keepset/plan@1'], null],
  ])('%j', (value, found) => {
    expect(refusalOf(value)).toEqual([
      expect.objectContaining({ code: 'keep-file-schema', args: { found } }),
    ]);
  });
});

describe('shape', () => {
  test('tells where, what belongs there, and in which instrument', () => {
    const at = ['instruments', 0, 'kept', 1, 'zone'];
    expect(refusalOf(changed(small, at, 'one'))).toEqual([
      expect.objectContaining({
        code: 'keep-file-shape',
        at: null,
        args: {
          at: 'instruments[0].kept[1].zone',
          expected: 'a whole number from 0',
          instrument: 'bank',
        },
      }),
    ]);
    const cues = ['instruments', 0, 'kept', 0, 'cues'];
    expect(refusalOf(changed(small, cues, { '1m1 "x"': -1 }))![0]!.args).toEqual({
      at: 'instruments[0].kept[0].cues["1m1 \\"x\\""]',
      expected: 'a whole number from 0',
      instrument: 'bank',
    });
  });

  test('no more than ten faults are told', () => {
    const kept = Array.from({ length: 1000 }, () => null);
    expect(refusalOf(changed(small, ['instruments', 0, 'kept'], kept))).toHaveLength(10);
  });

  test('what a later version adds is let pass', () => {
    expect(refusalOf({ ...(small as object), later: [1, { a: null }] })).toBeNull();
  });

  test('any value of another kind, and any that is missing, is told by its place', () => {
    const open =
      /^(?:settings|instruments\[\d+\])\.settle\.|\.cues\[|^settings\.(?:instrument|split)$/u;
    for (const [path, value] of placesIn(small)) {
      if (path.length === 0) continue;
      const [found] = refusalOf(changed(small, path, { no: 'such thing' })) ?? [];
      const isGroup = typeof value === 'object' && value !== null && !Array.isArray(value);
      const mayBeAnything = path.at(-1) === 'settle' || path.at(-1) === 'template';
      if (!mayBeAnything)
        expect(found?.code, path.join('.')).toMatch(/^keep-file-(?:shape|schema)$/u);
      if (typeof path.at(-1) === 'number' || (isGroup && mayBeAnything)) continue;
      const missing = refusalOf(changed(small, path, undefined));
      const isOfCue = path.at(-2) === 'cues';
      const code = path[0] === 'schema' ? 'schema' : isOfCue ? 'disagrees' : 'shape';
      expect(missing?.[0]?.code, path.join('.')).toBe(`keep-file-${code}`);
      expect(open.test('x')).toBe(false);
    }
  });
});

describe('anything at all', () => {
  test('bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 60 }), (bytes) => {
        expect(refusal(bytes)).not.toBeNull();
      }),
      { numRuns: 500 },
    );
  });

  test('values in the places of a keep file', () => {
    const places = placesIn(small);
    fc.assert(
      fc.property(fc.nat(places.length - 1), fc.jsonValue(), (at, value) => {
        refusalOf(changed(small, places[at]![0], value as Json));
      }),
      { numRuns: 500 },
    );
  });

  test('texts: what is no JSON has a place, and nothing else has', () => {
    const signs = fc.constantFrom(
      ...['{', '}', '[', ']', ':', ',', '"', '"a"', '1', '-', '.', 'e', 'E+', '0', 'true', 'nul'],
      ...['\\', '\\u00', ' ', '\n', '\t', '\u00a0', 'null', '"\\u00e4"', '1.5e-3'],
    );
    const isJson = (some: string): boolean => {
      try {
        JSON.parse(some);
        return true;
      } catch {
        return false;
      }
    };
    fc.assert(
      fc.property(
        fc.array(signs, { maxLength: 12 }),
        fc.jsonValue(),
        fc.nat(200),
        (all, value, cut) => {
          const whole = JSON.stringify(value, null, 1);
          const part = whole.slice(0, cut);
          for (const some of [all.join(''), whole, part, part + all.join('')]) {
            const fault = jsonFault(some);
            expect(fault === null, some).toBe(isJson(some));
            // What comes before a fault can be the beginning of something.
            if (fault?.cut === false)
              expect(jsonFault(some.slice(0, fault.offset))?.cut ?? true).toBe(true);
          }
          // A whole object or list, cut anywhere, is told as cut.
          if (typeof value === 'object' && value !== null && cut < whole.length) {
            expect(jsonFault(part)).toEqual({ offset: part.length, cut: true });
          }
        },
      ),
      { numRuns: 2000 },
    );
  });
});

test('a keep file of many zones is read to its end', () => {
  const zones = 25_000;
  const document = structuredClone(small) as { instruments: { kept: Json[] }[] };
  const kept = document.instruments[0]!.kept;
  const [one] = kept;
  while (kept.length < zones) kept.push(structuredClone(one!));
  const bytes = encode(JSON.stringify(document));
  // It counts zones that it has not.
  expect(() => readKeepFile(bytes, 'keep.json')).toThrow('keep-file-disagrees');
});
