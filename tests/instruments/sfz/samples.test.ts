import { describe, expect, test } from 'vitest';
import { filesIn } from '../../../src/files/folder-files.ts';
import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { readDocument } from '../../../src/instruments/sfz/text/read-document.ts';
import { structureOf } from '../../../src/instruments/sfz/structure/regions.ts';
import { loadSamples, type SfzSamples } from '../../../src/instruments/sfz/samples/sample-files.ts';
import { inputError } from '../../../src/terms/errors.ts';
import type { FileInfo, Files, OpenFile } from '../../../src/terms/files.ts';
import { fmt, identification, oggPage, riff, smpl, wave, zeros } from '../../samples/writers.ts';
import { refusals, root } from './reading.ts';

/** `frames` of silence; 16-bit mono at 44 100 Hz unless told otherwise. */
const wav = (frames: number, format: Parameters<typeof fmt>[0] = {}, ...more: Uint8Array[]) => {
  const { channels = 1, bits = 16 } = format;
  return wave(fmt(format), riff('data', zeros((frames * channels * bits) / 8)), ...more);
};

type Contents = Readonly<Record<string, string | Uint8Array>>;

const loadFrom = async (disk: Files, path = root): Promise<SfzSamples> =>
  loadSamples(disk, path, structureOf(await readDocument(disk, path)));

/** Loads the samples of a text that stands in `kit/kit.sfz`, with files beside it by their whole paths. */
const load = (text: string, others: Contents = {}): Promise<SfzSamples> =>
  loadFrom(new MemoryFiles({ ...others, [root]: text }));

/** For each region the kind and the number of its sample. */
const kinds = ({ uses }: SfzSamples): readonly string[] =>
  uses.map(({ kind, sample }) => (sample < 0 ? kind : `${kind} ${String(sample)}`));

const names = ({ samples }: SfzSamples): readonly string[] => samples.map(({ name }) => name);

/** Findings as code and arguments. */
const said = ({ findings }: SfzSamples) => findings.map(({ code, args }) => [code, args]);

describe('what a region plays', () => {
  test('files, generators, silence, embedded sounds, nothing', async () => {
    // Base64 of the text of the WAV, made by the system's own encoder.
    const click = Buffer.from(wav(5)).toString('base64');
    const loaded = await load(
      [
        `<sample>name=click base64data=${click}`,
        '<group>sample=group.wav',
        '<region>sample=own.wav',
        '<region>key=60',
        '<region>sample=*sine',
        '<region>sample=*Silence',
        '<region>sample=click',
        '<region>sample=click key=61',
        '<group><region>key=62',
        '<region>sample=first.wav sample=own.wav',
      ].join('\n'),
      { 'kit/own.wav': wav(10), 'kit/group.wav': wav(20), 'kit/first.wav': wav(30) },
    );
    expect(kinds(loaded)).toEqual([
      ...['file 0', 'file 1', 'generator', 'silence', 'embedded 2', 'embedded 2', 'none', 'file 0'],
    ]);
    expect(loaded.samples).toMatchObject([
      { name: 'own.wav', frames: 10, present: true },
      { name: 'group.wav', frames: 20, present: true },
      { name: 'click', frames: 5, present: true },
    ]);
    expect(loaded.findings).toEqual([]);
  });

  test('a default path stands before files alone', async () => {
    const loaded = await load(
      '<control>default_path=sub\\p_<region>sample=a.wav<region>sample=*noise',
      { 'kit/sub/p_a.wav': wav(3) },
    );
    expect(kinds(loaded)).toEqual(['file 0', 'generator']);
    expect(names(loaded)).toEqual(['a.wav']);
  });

  test('what the header says', async () => {
    const loaded = await load('<region>sample=a.wav', {
      'kit/a.wav': wav(7, { channels: 2, bits: 24, rate: 48_000 }, smpl([1, 5])),
    });
    expect(loaded.samples).toEqual([
      {
        ...{ name: 'a.wav', frames: 7, channels: 2, width: 3, rate: 48_000 },
        ...{ present: true, partner: null },
      },
    ]);
    expect(loaded.uses[0]?.header).toMatchObject({ format: 'wav', loop: { start: 1, end: 5 } });
  });
});

describe('where files are', () => {
  test.for([
    ['a.wav', 'kit/a.wav'],
    ['sub/a.wav', 'kit/sub/a.wav'],
    ['sub\\a b.wav', 'kit/sub/a b.wav'],
    ['./sub/.././a.wav', 'kit/a.wav'],
    ['../shared/a.wav', 'shared/a.wav'],
    ['/library/a.wav', '/library/a.wav'],
  ] as const)('%s is %s', async ([written, path]) => {
    const loaded = await load(`<region>sample=${written}`, { [path]: wav(1) });
    expect(loaded.samples).toMatchObject([{ name: written, present: true }]);
  });

  test('from included files too they start in the folder of the root', async () => {
    const loaded = await load('#include "sub/more.sfz"', {
      'kit/sub/more.sfz': '<region>sample=a.wav',
      'kit/a.wav': wav(1),
      'kit/sub/a.wav': wav(2),
    });
    expect(loaded.samples).toMatchObject([{ frames: 1 }]);
  });

  test('the root may be in the working folder, or the disk seen from a folder', async () => {
    const disk = new MemoryFiles({
      'kit.sfz': '<region>sample=a.wav',
      'a.wav': wav(1),
      'deep/kit.sfz': '<region>sample=a.wav',
      'deep/a.wav': wav(2),
    });
    expect((await loadFrom(disk, 'kit.sfz')).samples).toMatchObject([{ frames: 1 }]);
    expect((await loadFrom(filesIn(disk, 'deep'), 'kit.sfz')).samples).toMatchObject([
      { frames: 2 },
    ]);
  });

  test('outside the folder: read, and said once', async () => {
    const loaded = await load(
      '<region>sample=../a.wav<region>sample=../b.wav<region>sample=c.wav',
      {
        ...{ 'a.wav': wav(1), 'b.wav': wav(1), 'kit/c.wav': wav(1) },
      },
    );
    expect(said(loaded)).toEqual([
      ['sample-outside', { samples: 2, first: ['../a.wav', '../b.wav'] }],
    ]);
    expect(loaded.findings[0]).toMatchObject({ severity: 'note', file: root, at: null });
  });

  test('a path that only readers have which keep the one before', async () => {
    const text =
      '<control>default_path=close/<region>sample=a.wav<control>note_offset=1<region>sample=b.wav';
    const loaded = await load(text, { 'kit/close/a.wav': wav(1), 'kit/close/b.wav': wav(2) });
    expect(loaded.samples).toMatchObject([{ frames: 1 }, { name: 'b.wav', frames: 2 }]);
    const args = { samples: 1, path: 'b.wav', found: 'close/b.wav' };
    expect(said(loaded)).toEqual([['sample-default-path', args]]);
    // The plain reading comes first.
    const both = await load(text, {
      ...{ 'kit/close/a.wav': wav(1), 'kit/close/b.wav': wav(2), 'kit/b.wav': wav(3) },
    });
    expect(both.samples).toMatchObject([{ frames: 1 }, { frames: 3 }]);
    expect(both.findings).toEqual([]);
  });
});

describe('names that differ in capitals or accents', () => {
  test('are found, folders too', async () => {
    const loaded = await load(
      '<region>sample=SAMPLES\\Caf\u00e9 C4.WAV<region>sample=Samples/d.wav',
      {
        'kit/samples/cafe\u0301 c4.wav': wav(4),
        'kit/samples/D.wav': wav(5),
      },
    );
    expect(loaded.samples).toMatchObject([
      { name: 'SAMPLES\\Caf\u00e9 C4.WAV', frames: 4 },
      { name: 'Samples/d.wav', frames: 5 },
    ]);
    const path = 'SAMPLES/Caf\u00e9 C4.WAV';
    expect(said(loaded)).toEqual([
      ['sample-case', { samples: 2, path, found: 'samples/cafe\u0301 c4.wav' }],
    ]);
  });

  test('the exact name comes first', async () => {
    const loaded = await load('<region>sample=A.wav<region>sample=a.wav', {
      ...{ 'kit/A.wav': wav(1), 'kit/a.wav': wav(2) },
    });
    expect(loaded.samples).toMatchObject([{ frames: 1 }, { frames: 2 }]);
    expect(loaded.findings).toEqual([]);
  });

  test('each folder is listed once', async () => {
    const numbers = Array.from({ length: 500 }, (_, i) => String(i));
    const lists: string[] = [];
    class Listing extends MemoryFiles {
      override list(path: string): Promise<readonly string[]> {
        lists.push(path);
        return super.list(path);
      }
    }
    const disk = new Listing({
      ...Object.fromEntries(numbers.map((number) => [`kit/Samples/x${number}.wav`, wav(1)])),
      [root]: numbers.map((number) => `<region>sample=samples/X${number}.wav\n`).join(''),
    });
    const loaded = await loadFrom(disk);
    expect(loaded.samples.every(({ present }) => present)).toBe(true);
    expect(lists).toEqual(['.', 'kit/', 'kit/Samples/']);
  });
});

describe('one file is one sample', () => {
  test('however it is written', async () => {
    const loaded = await load(
      '<region>sample=sub/A.wav<region>sample=sub\\A.wav<region>sample=sub/../sub/./A.wav<region>sample=SUB/a.wav<control>default_path=sub/<region>sample=A.wav',
      { 'kit/sub/A.wav': wav(1) },
    );
    expect(kinds(loaded)).toEqual(Array(5).fill('file 0'));
    expect(names(loaded)).toEqual(['sub/A.wav']);
    expect(said(loaded)).toEqual([
      ['sample-case', { samples: 1, path: 'SUB/a.wav', found: 'sub/A.wav' }],
    ]);
  });

  test('on a disk that takes capitals and small letters for the same', async () => {
    class Blind extends MemoryFiles {
      override open<Result>(path: string, use: (file: OpenFile) => Promise<Result>) {
        return super.open(path.toLowerCase(), use);
      }
    }
    const text = '<region>sample=A.wav<region>sample=a.wav';
    const loaded = await loadFrom(new Blind({ [root]: text, 'kit/a.wav': wav(1) }));
    expect(kinds(loaded)).toEqual(['file 0', 'file 0']);
  });

  test('is read once', async () => {
    const disk = new MemoryFiles({
      [root]: '<region>sample=a.wav<region>sample=./a.wav<region>sample=a.wav',
      'kit/a.wav': wav(10_000),
    });
    await loadFrom(disk);
    // One page of its 20 044 bytes: the reader's first look.
    expect(disk.bytesRead('kit/a.wav')).toBe(4096);
    // What stands behind the sound is read by itself: 8 and 60 bytes of a loop.
    const looped = new MemoryFiles({
      [root]: '<region>sample=a.wav',
      'kit/a.wav': wav(10_000, {}, smpl([1, 5])),
    });
    await loadFrom(looped);
    expect(looped.bytesRead('kit/a.wav')).toBe(4096 + 68);
  });

  test('two files of one name are told apart by their folders', async () => {
    const loaded = await load(
      '<control>default_path=close/<region>sample=a.wav<control>default_path=far/<region>sample=a.wav',
      { 'kit/close/a.wav': wav(1), 'kit/far/a.wav': wav(2) },
    );
    expect(names(loaded)).toEqual(['a.wav', 'far/a.wav']);
  });
});

describe('what is not there', () => {
  test('is one finding for all', async () => {
    const missing = Array.from({ length: 30 }, (_, i) => `<region>sample=m${String(i)}.wav\n`);
    const loaded = await load(
      `${missing.join('')}<region>sample=m0.wav<region>sample=./m0.wav<region>sample=a.wav`,
      { 'kit/a.wav': wav(1) },
    );
    expect(loaded.samples).toHaveLength(31);
    expect(loaded.samples[0]).toEqual({
      ...{ name: 'm0.wav', frames: 0, channels: 1, width: 2, rate: 0 },
      ...{ present: false, partner: null },
    });
    expect(loaded.uses[30]).toEqual({ kind: 'file', sample: 0, header: null });
    expect(kinds(loaded).slice(30)).toEqual(['file 0', 'file 0', 'file 30']);
    const first = ['m0.wav', 'm1.wav', 'm2.wav', 'm3.wav'];
    expect(said(loaded)).toEqual([['samples-missing', { samples: 30, regions: 32, first }]]);
    expect(loaded.findings[0]?.severity).toBe('warning');
  });

  test('names are looked for with their default path, and long ones cut in front', async () => {
    const long = `${'x'.repeat(100)}/${'y'.repeat(40)}.wav`;
    const loaded = await load(
      `<control>default_path=sub\\<region>sample=a.wav<region>sample=${long}`,
    );
    const end = `…${'x'.repeat(14)}/${'y'.repeat(40)}.wav`;
    const args = { samples: 2, regions: 2, first: ['sub/a.wav', end] };
    expect(end).toHaveLength(60);
    expect(said(loaded)).toEqual([['samples-missing', args]]);
  });
});

describe('what can not be read', () => {
  test('is one finding for each kind of fault', async () => {
    const loaded = await load(
      '<region>sample=a.txt<region>sample=b.txt<region>sample=empty.wav<region>sample=c.mp3<region>sample=sub<region>sample=good.wav',
      {
        'kit/a.txt': 'Dear diary',
        'kit/b.txt': 'Another one',
        'kit/empty.wav': '',
        'kit/c.mp3': Uint8Array.of(0xff, 0xfb, 0x90, 0, ...zeros(40)),
        'kit/sub/x': '',
        'kit/good.wav': wav(1),
      },
    );
    const unread = (fault: string, detail: string, ...first: string[]) => [
      'sample-header-unreadable',
      { fault, detail, samples: first.length, first },
    ];
    expect(said(loaded)).toEqual([
      unread('not-audio', 'Dear', 'a.txt', 'b.txt'),
      unread('empty', '', 'empty.wav'),
      unread('unsupported', 'MPEG audio', 'c.mp3'),
      unread('path-not-a-file', '', 'sub'),
    ]);
    expect(loaded.samples.map(({ present }) => present)).toEqual([
      ...[false, false, false, false, false, true],
    ]);
    expect(loaded.findings.every(({ severity }) => severity === 'warning')).toBe(true);
  });

  test('a disk that refuses', async () => {
    class Refusing extends MemoryFiles {
      override open(path: string): Promise<never> {
        return Promise.reject(inputError('path-unreadable', path, { reason: 'EACCES' }));
      }
    }
    const disk = new Refusing({ [root]: '<region>sample=a.wav', 'kit/a.wav': wav(1) });
    expect(said(await loadFrom(disk))).toMatchObject([
      ['sample-header-unreadable', { fault: 'path-unreadable', detail: 'EACCES' }],
    ]);
  });

  test('what lies outside and is no file is not even opened', async () => {
    const opened: string[] = [];
    class Devices extends MemoryFiles {
      override info(path: string): Promise<FileInfo | null> {
        return path === '/dev/a' ? Promise.resolve({ kind: 'other', size: 0 }) : super.info(path);
      }
      override open<Result>(path: string, use: (file: OpenFile) => Promise<Result>) {
        opened.push(path);
        return super.open(path, use);
      }
    }
    const text = '<region>sample=/dev/a<region>sample=/dev/b<region>sample=a.wav';
    const disk = new Devices({ [root]: text, 'kit/a.wav': wav(1), '/dev/b': wav(2) });
    const loaded = await loadFrom(disk);
    expect(opened.sort()).toEqual(['/dev/b', 'kit/a.wav']);
    expect(said(loaded)).toMatchObject([
      ['sample-outside', { samples: 2 }],
      ['sample-header-unreadable', { fault: 'path-not-a-file', first: ['/dev/a'] }],
    ]);
  });

  test('a defect is no finding', async () => {
    class Broken extends MemoryFiles {
      override open(): Promise<never> {
        return Promise.reject(new TypeError('a defect'));
      }
    }
    const disk = new Broken({ [root]: '<region>sample=a.wav' });
    await expect(loadFrom(disk)).rejects.toThrow('a defect');
  });

  test('an embedded sound', async () => {
    const loaded = await load('<sample>name=x base64data=AAAA<region>sample=x');
    expect(loaded.samples).toMatchObject([{ name: 'x', present: false }]);
    expect(said(loaded)).toMatchObject([['sample-header-unreadable', { fault: 'not-audio' }]]);
  });

  test('paths that would only fill the memory', async () => {
    const folder = 'x/'.repeat(30_000);
    const many = Array.from({ length: 1000 }, (_, i) => `<region>sample=${String(i)}\n`).join('');
    const reading = load(`<control>default_path=${folder}\n${many}`);
    expect(await refusals(reading)).toMatchObject([{ code: 'samples-paths-too-long', file: root }]);
  });
});

test('what a header leaves open is said', async () => {
  const { length } = wav(100);
  const loaded = await load('<region>sample=a.ogg<region>sample=cut.wav<region>sample=loop.wav', {
    'kit/a.ogg': Uint8Array.from([
      ...oggPage({ data: identification(), flags: 2 }),
      ...oggPage({ data: zeros(10), flags: 4, granule: 500 }),
    ]),
    'kit/cut.wav': wav(100).subarray(0, length - 20),
    // A loop behind the end changes no figure.
    'kit/loop.wav': wav(10, {}, smpl([5, 50])),
  });
  expect(said(loaded)).toEqual([
    ['sample-width-assumed', { samples: 1, width: 2, first: ['a.ogg'] }],
    ['sample-header-odd', { remark: 'sound-cut', samples: 1, first: ['cut.wav'] }],
  ]);
  expect(loaded.samples).toMatchObject([
    { frames: 500, width: 2 },
    { frames: 90, present: true },
    { frames: 10 },
  ]);
});
