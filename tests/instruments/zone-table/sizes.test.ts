import { expect, test } from 'vitest';
import { faultLines, readTable, rowTable, zoneBytes } from './reading.ts';

const sampleOf = (cells: Readonly<Record<string, string>>) =>
  readTable(rowTable(cells)).samples[0]!;

/** Bytes of one second, and where the figure is from. */
test.each([
  // IEC 60908 (compact disc): 44 100 frames a second, 16 bits, 2 channels.
  ['44100', '16', '2', 176_400],
  // Arithmetic: 48 000 x 3 bytes x 2 channels.
  ['48000', '24', '2', 288_000],
  // 7.1 has 8 channels (common practice): 48 000 x 3 bytes x 8 channels.
  ['48000', '24', '8', 1_152_000],
  // Arithmetic: 96 000 x 4 bytes x 1 channel.
  ['96000', '32', '1', 384_000],
])('a second of %s frames, %s bits and %s channels is %i bytes', (rate, bits, channels, bytes) => {
  expect(zoneBytes(readTable(rowTable({ seconds: '1', rate, bits, channels })))).toEqual([bytes]);
  expect(zoneBytes(readTable(rowTable({ frames: rate, rate, bits, channels })))).toEqual([bytes]);
});

test.each([
  ['1', 48_000],
  ['1.1', 52_800],
  ['0,5', 24_000],
  ['0.00001', 1],
  ['0.3 s', 14_400],
  ['60 ms', 2_880],
  ['2.0000001', 96_001],
  ['0', 0],
])('%s seconds at 48 000 are %i frames, rounded up', (seconds, frames) => {
  expect(sampleOf({ seconds, rate: '48000' }).frames).toBe(frames);
});

test.each([
  ['44.1 kHz', 44_100],
  ['44,1kHz', 44_100],
  ['48 khz', 48_000],
  ['96000 Hz', 96_000],
  ['22050', 22_050],
])('a rate of %s is %i', (rate, expected) => {
  expect(sampleOf({ frames: '10', rate }).rate).toBe(expected);
});

test.each([
  ['16', 2],
  ['24 bit', 3],
  ['24-bit', 3],
  ['32 bits', 4],
])('%s is a width of %i', (bits, width) => {
  expect(sampleOf({ frames: '10', bits }).width).toBe(width);
});

test('what a row leaves open is 48 000 frames a second, 24 bits, stereo, and is said once', () => {
  const table = readTable('keys;seconds;rate;bits;channels\n1;1;;;\n2;1;44100;;\n3;1;44100;16;1\n');
  expect(table.samples).toMatchObject([
    { frames: 48_000, width: 3, channels: 2, rate: 48_000 },
    { frames: 44_100, width: 3, channels: 2, rate: 44_100 },
    { frames: 44_100, width: 2, channels: 1, rate: 44_100 },
  ]);
  expect(table.findings).toMatchObject([
    { code: 'table-assumed', severity: 'note', args: { rows: 2, rate: 1, bits: 2, channels: 2 } },
  ]);
});

test.each([
  ['1000', 1_000],
  ['44 KiB', 45_056],
  ['1,2 MB', 1_200_000],
  ['6 GiB', 6_442_450_944],
  ['0', 0],
])('%s in bytes are exactly %i, and nothing is assumed', (bytes, expected) => {
  const table = readTable(rowTable({ keys: '60', bytes }));
  expect(zoneBytes(table)).toEqual([expected]);
  expect(table.findings).toEqual([]);
});

test('bytes that are whole frames of a known kind are those frames', () => {
  expect(sampleOf({ bytes: '176400', rate: '44100', bits: '16', channels: '2' })).toMatchObject({
    frames: 44_100,
    width: 2,
    channels: 2,
    rate: 44_100,
  });
});

/** Also where they would come to whole frames of the usual kind: nothing says that they are any. */
test.each([
  ['', ''],
  ['24', ''],
  ['', '2'],
])('bytes of an unknown kind (bits %j, channels %j) are counted one by one', (bits, channels) => {
  expect(sampleOf({ bytes: '1200', bits, channels })).toMatchObject({
    frames: 1_200,
    width: 1,
    channels: 1,
  });
});

/** Then a second, which a head may be given in, still is what it would be: rate x frame. */
test.each([
  ['', '', '', 288_000],
  ['44100', '16', '2', 176_400],
  ['44100', '', '1', 132_300],
])('bytes that are not: a second at %s/%s/%s is %i bytes', (rate, bits, channels, bytes) => {
  const sample = sampleOf({ bytes: '1001', rate, bits, channels });
  expect(sample.frames * sample.channels * sample.width).toBe(1_001);
  expect(sample.rate * sample.channels * sample.width).toBe(bytes);
});

test.each([
  ['bytes', '1.5'],
  ['bytes', '-1'],
  ['bytes', 'large'],
  ['frames', '1,5'],
  ['frames', '48.000'],
  ['frames', '-4'],
  ['seconds', '1:20'],
  ['seconds', '-1'],
  ['seconds', 'Infinity'],
])('%s of %s is no size', (column, value) => {
  expect(faultLines(rowTable({ [column]: value }))).toEqual(['table-cell 2 7']);
});

test.each([
  ['rate', '48'],
  ['rate', '44.1'],
  ['rate', '2 MHz'],
  ['rate', '48.000'],
  ['bits', '20'],
  ['bits', 'float'],
  ['channels', '0'],
  ['channels', '65'],
  ['channels', '1,5'],
  ['channels', 'stereo'],
])('%s of %s cannot be', (column, value) => {
  expect(faultLines(rowTable({ frames: '1', [column]: value }))).toEqual(['table-cell 2 9']);
});

test('a row says its size once', () => {
  expect(faultLines('keys;bytes;seconds\n1;10;\n2;;\n3;10;1\n4;;1')).toEqual([
    'table-size-missing 3 1',
    'table-size-twice 4 3',
  ]);
});

/** 32 GiB: 200 000 of them are below 2^53, up to which sums are exact. */
test('a sample has a largest size', () => {
  expect(zoneBytes(readTable(rowTable({ bytes: '32 GiB' })))).toEqual([2 ** 35]);
  expect(faultLines(rowTable({ bytes: '34359738369' }))).toEqual(['table-sample-too-large 2 7']);
  expect(faultLines(rowTable({ seconds: '120000' }))).toEqual(['table-sample-too-large 2 7']);
});
