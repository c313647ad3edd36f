import { expect, test } from 'vitest';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { InputError } from '../../../src/terms/errors.ts';
import { trimSfz } from '../../../src/trim/sfz/trim-sfz.ts';
import { fmt, riff, wave, zeros } from '../../samples/writers.ts';
import { keepSet, trim, type Contents } from './trimming.ts';

const wav = (frames: number): Uint8Array => wave(fmt(), riff('data', zeros(frames * 2)));

const kit = [
  '<control> default_path=wav/',
  '<region> key=1 sample=a.wav',
  '<region> key=2 sample=B.WAV',
  '<region> key=3 sample=..\\wav\\a.wav',
  '<region> key=4 sample=c.wav',
  '<region> key=5 sample=none.wav',
  '<region> key=6 sample=*sine',
  '<region> key=7 sample=../../shared/d.wav',
  '<region> key=8 sample=notes.txt',
  '',
].join('\n');

const contents: Contents = {
  'kits/kit.sfz': kit,
  'kits/wav/a.wav': wav(10),
  'kits/wav/b.wav': wav(20),
  'kits/wav/c.wav': wav(30),
  'shared/d.wav': wav(40),
  'kits/wav/notes.txt': 'not a sound',
};

test('each sample that stays is copied once, from where it is; missing ones stay missing', async () => {
  const { trimmed, bytes } = await trim(
    contents,
    keepSet([0, 1, 2, 4, 5, 6, 7], [3]),
    './kits/kit.sfz',
  );
  expect(trimmed.files.map(({ path }) => path)).toEqual([
    'kits/kit.sfz',
    'kits/wav/a.wav',
    'kits/wav/b.wav',
    'shared/d.wav',
    'kits/wav/notes.txt',
  ]);
  expect(bytes['kits/wav/b.wav']).toEqual(wav(20));
  expect(trimmed.files[2]!.pieces).toEqual([
    { kind: 'copy', path: 'kits/wav/b.wav', start: 0, length: 84, size: 84 },
  ]);
  // By hand: the text, four sounds of 44 bytes and two a frame, and eleven letters.
  expect(trimmed.bytesBefore).toBe(kit.length + 4 * 44 + 2 * (10 + 20 + 30 + 40) + 11);
});

test('what only silent regions play, or none that stays, is left', async () => {
  const { trimmed } = await trim(contents, keepSet([0], [1, 3]), 'kits/kit.sfz');
  expect(trimmed.files.map(({ path }) => path)).toEqual(['kits/kit.sfz', 'kits/wav/a.wav']);
});

test('a text that is a sample too is written once, as a text', async () => {
  const texts = { 'kit.sfz': '<region> sample=kit.sfz\n<region> key=3\n' };
  const { trimmed } = await trim(texts, keepSet([0]));
  expect(trimmed.files).toHaveLength(1);
});

test('bytes before count every text once, however often it is included', async () => {
  const texts = { 'kit.sfz': '#include "a.sfz" #include "a.sfz"', 'a.sfz': '<region>' };
  const { trimmed } = await trim(texts, keepSet([0]));
  // By hand: two directives of 16 letters, a blank, a header of 8.
  expect(trimmed.bytesBefore).toBe(2 * 16 + 1 + 8);
});

test('numbers that no region has are passed over', async () => {
  const { trimmed } = await trim({ 'kit.sfz': '<region>' }, keepSet([0, 5], [7]));
  expect([...trimmed.zones]).toEqual([[0, 0]]);
});

test('a text that changes while it is read is noticed', async () => {
  let reads = 0;
  class Changing extends MemoryFiles {
    override async read(path: string, offset?: number, length?: number): Promise<Uint8Array> {
      reads += 1;
      const bytes = await super.read(path, offset, length);
      return reads > 1 ? bytes.subarray(1) : bytes;
    }
  }
  const files = new Changing({ 'kit.sfz': '<region> key=1\n<region> key=2\n' });
  const trimming = trimSfz(files, 'kit.sfz', keepSet([0]));
  await expect(trimming).rejects.toThrow(InputError);
  await expect(trimming).rejects.toMatchObject({ finding: { code: 'path-changed-while-read' } });
});

test.each([
  ['a sample', { '/lib/a.sfz': '<region> key=1 sample=/lib/a.wav\n', '/lib/a.wav': wav(10) }],
  [
    'a folder',
    {
      '/lib/a.sfz': '<control> default_path=/lib/\n<region> key=1 sample=a.wav\n',
      '/lib/a.wav': wav(10),
    },
  ],
  [
    'an include',
    { '/lib/a.sfz': '#include "/lib/b.sfz"\n', '/lib/b.sfz': '<region> key=1 sample=*sine\n' },
  ],
  [
    'a folder that an earlier control names',
    {
      '/lib/a.sfz': '<control> default_path=/far/\n<control>\n<region> key=1 sample=w/a.wav\n',
      '/far/w/a.wav': wav(10),
    },
  ],
  [
    'the same with other capitals',
    {
      '/lib/a.sfz': '<control> default_path=/far/\n<control>\n<region> key=1 sample=w/a.wav\n',
      '/far/w/A.WAV': wav(10),
    },
  ],
])('%s that is named by its whole path would not be the copy', async (_, files) => {
  const disk = new MemoryFiles(files);
  const root = '/lib/a.sfz';
  await expect(trimSfz(disk, root, keepSet([0]))).rejects.toMatchObject({
    finding: { code: 'trim-path', args: { reason: 'absolute' } },
  });
  const size = Object.values<string | Uint8Array>(files).reduce((sum, one) => sum + one.length, 0);
  expect((await trimSfz(disk, root, keepSet([]))).bytesBefore).toBe(size);
});

test('a whole path matters only where a file is copied from it', async () => {
  const text = [
    '<region> key=1 sample=/lib/none.wav',
    '<region> key=2 sample=/lib/a.wav',
    '<region> key=3 sample=/lib/a.wav',
    '<region> key=4 sample=b.wav',
    '<control> default_path=/far/',
    '<region> key=5 sample=c.wav',
    '<control> default_path=',
    '<control>',
    '<region> key=6 sample=B.wav',
    '',
  ].join('\n');
  const files = { '/lib/a.sfz': text, '/lib/a.wav': wav(1), '/lib/b.wav': wav(2) };
  const trimmed = await trimSfz(new MemoryFiles(files), '/lib/a.sfz', keepSet([0, 3, 4, 5], [1]));
  expect(trimmed.files.map(({ path }) => path)).toEqual(['/lib/a.sfz', '/lib/b.wav']);
});
