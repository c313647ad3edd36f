import { expect, test } from 'vitest';
import { checkAgainstReader } from './against-reader.ts';
import { keepSet, trim } from './trimming.ts';

const utf16 = (text: string, isBigEndian: boolean): Uint8Array => {
  const bytes = Buffer.from(`\ufeff${text}`, 'utf16le');
  return Uint8Array.from(isBigEndian ? bytes.swap16() : bytes);
};

const latin1 = (text: string): Uint8Array => Uint8Array.from(Buffer.from(text, 'latin1'));

const utf8 = (text: string): Uint8Array => Uint8Array.from(Buffer.from(text, 'utf8'));

const stubs = [
  '// These play nothing. They stand for switches and controllers of regions that are gone.',
  '<global>',
  '<region> sw_last=24 hikey=-1 sample=*silence',
  '',
].join('\n');

const before = [
  '// \u{1d11e} caf\u00e9',
  '<region> sw_last=24 sample=\u00fcber \u{1d11e}.wav',
  '<region> sample=r\u00e9.wav #define $\u00e9 x',
  '',
].join('\n');
const after = ['// \u{1d11e} caf\u00e9', '<region> sample=r\u00e9.wav #define $\u00e9 x', ''].join(
  '\n',
);

test.each<readonly [string, (text: string) => Uint8Array]>([
  ['UTF-8', utf8],
  ['UTF-8 with a mark', (text) => utf8(`\ufeff${text}`)],
  ['UTF-16, low byte first', (text) => utf16(text, false)],
  ['UTF-16, high byte first', (text) => utf16(text, true)],
])('%s', async (_, write) => {
  const { bytes } = await checkAgainstReader({ 'kit.sfz': write(before) }, keepSet([1]));
  expect(bytes['kit.sfz']).toEqual(write(after + stubs));
});

test('Windows-1252', async () => {
  // 0x96 is a dash there, and no character of Latin-1.
  const text = '// caf\xe9\n<region> sw_last=24 sample=\xfc \x96.wav\n<region> sample=r\xe9.wav\n';
  const { bytes } = await checkAgainstReader({ 'kit.sfz': latin1(text) }, keepSet([1]));
  expect(bytes['kit.sfz']).toEqual(latin1(`// caf\xe9\n<region> sample=r\xe9.wav\n${stubs}`));
});

test('Windows-1252 that would pass for UTF-8 afterwards says what it is', async () => {
  // Bytes 0xc3 0xa9 are an e with an accent in UTF-8, and two characters here.
  const text = '<region> sample=\xfc.wav\n<region> sample=\xc3\xa9.wav\n';
  const { bytes } = await checkAgainstReader({ 'kit.sfz': latin1(text) }, keepSet([1]));
  // 0x80 is the euro sign of Windows-1252 (Encoding Standard, index windows-1252), never alone in UTF-8.
  expect(bytes['kit.sfz']).toEqual(latin1('// Not UTF-8: \x80\n<region> sample=\xc3\xa9.wav\n'));
});

test('what comes to stand first is not taken for a byte order mark', async () => {
  const text = '<region> key=1\n\ufeff<region> key=2\n<region> key=3\n';
  const { texts } = await checkAgainstReader({ 'kit.sfz': text }, keepSet([1]));
  expect(texts['kit.sfz']).toBe(' \ufeff<region> key=2\n<region> key=3\n');
});

test('half a character at the end of UTF-16', async () => {
  const text = Uint8Array.from([...utf16('<region> sw_last=24\n<region> key=1\n', false), 0x41]);
  const { bytes } = await checkAgainstReader({ 'kit.sfz': text }, keepSet([1]));
  expect(bytes['kit.sfz']).toEqual(utf16(`<region> key=1\n\ufffd\n${stubs}`, false));
});

test('a directive that names another copy, in the encoding of its file', async () => {
  const text = '#include "\xe9/a.sfz"\n#include "\xe9/a.sfz"\n<region> sample=\xe9\n';
  const included = '<region> key=1\n';
  const { bytes } = await trim(
    { 'kit.sfz': utf16(text, true), '\xe9/a.sfz': included },
    keepSet([1, 2]),
  );
  expect(bytes['kit.sfz']).toEqual(utf16(text.replace('a.sfz', 'a-2.sfz'), true));
  const again = await trim({ 'kit.sfz': latin1(text), '\xe9/a.sfz': included }, keepSet([1, 2]));
  expect(again.bytes['kit.sfz']).toEqual(latin1(text.replace('a.sfz', 'a-2.sfz')));
  expect(again.texts['\xe9/a-2.sfz']).toBe('');
});
