import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { readDocument } from '../../../src/instruments/sfz/text/read-document.ts';
import { InputError } from '../../../src/terms/errors.ts';
import { checkAgainstReader } from './against-reader.ts';
import { keepSet } from './trimming.ts';

const good = [
  '// \u{1d11e} a small kit',
  '<control> default_path=a\\b/ note_offset=1 set_cc1=64',
  '#define $k 60 #define $kk 61 #define $n a',
  '<global> sw_default=c4 /* none */ <master>lovel=1',
  '<group>loopmode=one_shot sample=My wave, no. 1.wav',
  '<region>key=$k #include "a.sfz" hikey=$kk<region>locc$k=1 sw_last=30 // hicc1=90',
  '<region>#include "a.sfz" #include "$n.sfz"',
  '<sample>name=a.wav base64data=UklG\nRg==',
  '<region>sample=*silence end=-1 /* to',
  'here */ <region> sample=a.wav #define $n a',
  '',
].join('\n');
const goodIncluded =
  'lovel=5\r\n<region> $kind=1 sw_default=3 tune=-5 #define $kind xfin_locc1\r\n<region>key=$k';

const snippets = fc.constantFrom(
  ...['<', '>', '<region>', '<region>', '<region>', '<group>', '<control>', '<global>', '<sample>'],
  ...['=', '$', '$k', '$kk', '#', '#define ', '#define $k ', '#define $k $kk', '#define $kk $k'],
  ...['#include "a.sfz"', '#include "a.sfz"', '#include "b.sfz"', '#include "', '"', '\\', '../'],
  ...['/', '//', '/*', '*/', ' ', '\t', '\n', '\r', '\r\n', '\n', ' ', '/**/', '// x=1\n', 'junk'],
  ...['key=60', 'lokey=', 'note_offset=1e9', 'octave_offset=-3', 'amplitude_cc7=1', 'sw_default=9'],
  ...['base64data=', 'base64data=QUJD', 'name=a.wav', 'sample=a.wav', 'sw_last=40', 'sw_down=c4'],
  ...['sw_last=24 sw_label=', 'sw_label=long $k', 'sw_label=a #1', '#define $k key=/'],
  ...['\ud83c', '\u{1f3b5}', 'e\u0301', '\ufeff', 'sample=*silence', '$k=1', '$none=1', '<>'],
);

const edit = fc.record({
  at: fc.double({ min: 0, max: 1, noNaN: true }),
  remove: fc.oneof(fc.constant(0), fc.nat({ max: 6 }), fc.nat({ max: 100 })),
  insert: fc.array(snippets, { maxLength: 3 }).map((all) => all.join('')),
});
const edits = fc.array(edit, { maxLength: 5 });

const edited = (
  text: string,
  changes: readonly { readonly at: number; readonly remove: number; readonly insert: string }[],
): string =>
  changes.reduce((changed, { at, remove, insert }) => {
    const from = Math.floor(at * changed.length);
    return changed.slice(0, from) + insert + changed.slice(from + remove);
  }, text);

/** For each region by turns: loaded, silent, gone. */
const choices = fc.array(fc.nat({ max: 3 }), { minLength: 1, maxLength: 12 });

/** Trims a hostile instrument: it is refused with an InputError, or the result is right. */
const survives = async (
  text: string | Uint8Array,
  included: string | Uint8Array,
  choice: readonly number[],
): Promise<'trimmed' | 'refused'> => {
  const contents = { 'kit/kit.sfz': text, 'kit/a.sfz': included, 'kit/B.sfz': '<region>key=1' };
  let regions: number;
  try {
    const { headers } = await readDocument(new MemoryFiles(contents), 'kit/kit.sfz');
    regions = headers.filter(({ name }) => name === 'region').length;
  } catch (error) {
    if (error instanceof InputError) return 'refused';
    throw error;
  }
  const chosen = (wanted: number): readonly number[] =>
    Array.from({ length: regions }, (_, i) => i).filter(
      (i) => choice[i % choice.length] === wanted,
    );
  await checkAgainstReader(contents, keepSet(chosen(0), chosen(1)), 'kit/kit.sfz');
  return 'trimmed';
};

describe('instruments that are not what they should be are refused or trimmed rightly', () => {
  test('the one that is changed here is sound', async () => {
    expect(await survives(good, goodIncluded, [2, 0, 1])).toBe('trimmed');
  });

  test('changed texts', async () => {
    const outcomes = { trimmed: 0, refused: 0 };
    await fc.assert(
      fc.asyncProperty(edits, edits, choices, async (here, there, choice) => {
        outcomes[await survives(edited(good, here), edited(goodIncluded, there), choice)] += 1;
      }),
      { numRuns: Number(process.env['RUNS'] ?? 350) },
    );
    expect(outcomes.trimmed).toBeGreaterThan(60);
    expect(outcomes.refused).toBeGreaterThan(15);
  });

  test('snippets in any order', async () => {
    const text = fc.array(snippets, { maxLength: 40 }).map((parts) => parts.join(''));
    await fc.assert(
      fc.asyncProperty(text, text, choices, async (here, there, choice) => {
        await survives(here, there, choice);
      }),
      { numRuns: Number(process.env['RUNS'] ?? 500) },
    );
  });

  test('bytes changed, texts cut short', async () => {
    const bytes = new TextEncoder().encode(good);
    const changes = fc.array(fc.tuple(fc.nat({ max: bytes.length - 1 }), fc.nat({ max: 255 })), {
      maxLength: 6,
    });
    await fc.assert(
      fc.asyncProperty(
        fc.nat({ max: bytes.length }),
        changes,
        choices,
        async (length, values, choice) => {
          const changed = bytes.slice();
          for (const [at, value] of values) changed[at] = value;
          await survives(changed.subarray(0, length), goodIncluded, choice);
        },
      ),
      { numRuns: Number(process.env['RUNS'] ?? 200) },
    );
  });
});
