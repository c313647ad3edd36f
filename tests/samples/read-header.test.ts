import { describe, expect, it, test } from 'vitest';
import { readSampleHeader, sampleHeaderOf } from '../../src/samples/read-header.ts';
import { isHeaderFault } from '../../src/samples/sample-header.ts';
import { headerOf } from './counted.ts';
import { ascii, fmt, join, riff, wave, zeros } from './writers.ts';

describe('what is no sample', () => {
  test.each([
    ['nothing', '', { code: 'empty' }],
    ['one byte', 'R', { code: 'not-audio', begins: 'R' }],
    ['text', 'version 1 of something', { code: 'not-audio', begins: 'vers' }],
    ['escape characters', '\x1b[31m red', { code: 'not-audio', begins: '\\x1b[31' }],
    ['a SoundFont', 'RIFF\x04\0\0\0sfbk', { code: 'not-audio', begins: 'RIFF sfbk' }],
    ['a picture', 'FORM\0\0\0\x04ILBM', { code: 'not-audio', begins: 'FORM ILBM' }],
    ['a cue', 'MThd\0\0\0\x06\0\0\0\0', { code: 'not-audio', begins: 'MThd' }],
    ['IFF 8SVX', 'FORM\0\0\0\x048SVX', { code: 'unsupported', what: 'IFF 8SVX' }],
    ['MPEG audio', '\xff\xfb\x90\x64....', { code: 'unsupported', what: 'MPEG audio' }],
    [
      'MPEG behind a tag',
      'ID3\x03\0\0\0\0\0\0\xff\xf3\x90\x64',
      { code: 'unsupported', what: 'MPEG audio' },
    ],
    ['big-endian WAVE', 'RIFX\0\0\0\x04WAVE', { code: 'unsupported', what: 'WAVE in RIFX' }],
    ['WavPack', 'wvpk\0\0\0\0', { code: 'unsupported', what: 'WavPack' }],
    ['CAF', 'caff\0\x01\0\0', { code: 'unsupported', what: 'CAF' }],
    ['AU', '.snd\0\0\0\x18', { code: 'unsupported', what: 'AU' }],
    ['MPEG-4', '\0\0\0\x20ftypM4A ', { code: 'unsupported', what: 'MPEG-4' }],
    ['UTF-16 text', '\xff\xfet\0e\0x\0t\0', { code: 'not-audio', begins: '\\xff\\xfet\\x00' }],
  ])('%s', async (_, text, fault) => {
    const result = await headerOf(ascii(text));
    expect(result).toEqual(fault);
    expect(isHeaderFault(result)).toBe(true);
  });
});

describe('where the bytes come from', () => {
  const file = wave(fmt(), riff('data', zeros(20)));

  it('may be memory', async () => {
    const result = await sampleHeaderOf(file);
    expect(result).toMatchObject({ format: 'wav', frames: 10 });
    expect(isHeaderFault(result)).toBe(false);
  });

  it('may be a file that has become shorter since its size was asked for', async () => {
    const read = (offset: number, length: number) =>
      Promise.resolve(file.subarray(0, 30).subarray(offset, offset + length));
    expect(await readSampleHeader(file.length, read)).toEqual({ code: 'cut', part: 'fmt ' });
    const nothing = () => Promise.resolve(new Uint8Array(0));
    expect(await readSampleHeader(500, nothing)).toEqual({ code: 'empty' });
  });

  it('may fail, and then so does the reading', async () => {
    const failing = () => Promise.reject(new Error('gone'));
    await expect(readSampleHeader(500, failing)).rejects.toThrow('gone');
  });

  it('may be part of a larger buffer', async () => {
    const inside = join(zeros(3), file, zeros(5)).subarray(3, 3 + file.length);
    expect(await sampleHeaderOf(inside)).toMatchObject({ frames: 10 });
  });
});
