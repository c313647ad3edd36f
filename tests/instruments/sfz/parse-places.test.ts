import { expect, test } from 'vitest';
import type { SfzDocument } from '../../../src/instruments/sfz/text/document.ts';
import { outline, read, regionsOf, slice } from './reading.ts';

const text = [
  '// \u{1d11e} a clef',
  '<control> default_path=a\\b/ #define $k 60',
  '\t<group>  KEY=$k\tsample=My wave.wav   // one',
  '<region> /* \u{1d11e} */ lovel=1 #include "more.sfz" hivel=9  ',
  '<region>lovel=10',
].join('\r\n');
const more = 'seq_length=2\n  loc$k=3 <region> lovel=$k$k tune=-5';

const places = (document: SfzDocument): readonly string[] =>
  document.headers.flatMap(({ place, opcodes }) =>
    [place, ...opcodes.map((opcode) => opcode.place)].map(
      (one) =>
        `${String(one.file)} ${String(one.line)}:${String(one.column)} ${slice(document, one)}`,
    ),
  );

test('a place covers the header or opcode as written, in whichever file', async () => {
  expect(places(await read(text, { 'kit/more.sfz': more }))).toEqual([
    '0 2:1 <control>',
    '0 2:11 default_path=a\\b/',
    '0 3:2 <group>',
    '0 3:11 KEY=$k',
    '0 3:18 sample=My wave.wav',
    '0 4:1 <region>',
    '0 4:18 lovel=1',
    '1 1:1 seq_length=2',
    '1 2:3 loc$k=3',
    '1 2:11 <region>',
    '1 2:20 lovel=$k$k',
    '1 2:31 tune=-5',
    '0 4:46 hivel=9',
    '0 5:1 <region>',
    '0 5:9 lovel=10',
  ]);
});

test('a byte order mark does not shift places', async () => {
  const document = await read('\ufeff<region>key=1');
  expect(document.headers[0]!.place).toEqual({ file: 0, start: 0, end: 8, line: 1, column: 1 });
  expect(document.headers[0]!.opcodes[0]!.place).toMatchObject({ start: 8, end: 13, column: 9 });
});

test('the place of data ends before the white space behind it', async () => {
  const document = await read('<sample>base64data=AAAA\nBBBB\n \n<region>');
  expect(slice(document, document.headers[0]!.opcodes[0]!.place)).toBe('base64data=AAAA\nBBBB');
});

/** Takes stretches out of a text, from the last to the first. */
const without = (whole: string, stretches: readonly { start: number; end: number }[]): string =>
  [...stretches]
    .sort((a, b) => b.start - a.start)
    .reduce((rest, { start, end }) => rest.slice(0, start) + rest.slice(end), whole);

test('a region taken out by its places is gone, and nothing else is', async () => {
  const before = await read(text, { 'kit/more.sfz': more });
  const regions = before.headers.filter(({ name }) => name === 'region');
  for (const [i, region] of regions.entries()) {
    const gone = [region.place, ...region.opcodes.map(({ place }) => place)];
    const [kit, rest] = before.files.map((file, number) =>
      without(
        file.text,
        gone.filter((place) => place.file === number),
      ),
    );
    const after = await read(kit!, { 'kit/more.sfz': rest! });
    expect(after.findings).toEqual([]);
    expect(outline(after)).toEqual(
      outline({ ...before, headers: before.headers.filter((one) => one !== region) }),
    );
    expect(regionsOf(after)).toEqual(regionsOf(before).filter((_, other) => other !== i));
  }
});
