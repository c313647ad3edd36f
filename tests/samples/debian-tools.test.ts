import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseBuffer } from 'music-metadata';
import { afterAll, beforeAll, describe, expect, it, test } from 'vitest';
import { needs } from '../tools.ts';
import { countReads, headerOf } from './counted.ts';
import { join as joinBytes, smpl } from './writers.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'keepset-samples-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const run = (command: string, ...args: readonly string[]): Buffer =>
  execFileSync(command, args, { cwd: folder, stdio: ['ignore', 'pipe', 'ignore'] });

const read = (name: string): Uint8Array => readFileSync(join(folder, name));

/** What `sox` is asked for: a sine of exactly `frames` frames. */
interface Tone {
  readonly frames: number;
  readonly channels: number;
  readonly rate: number;
}

const tone = ({ frames, channels, rate }: Tone, name: string, ...format: readonly string[]) => {
  const input = ['-r', `${rate}`, '-c', `${channels}`, '-n'];
  run('sox', ...input, ...format, name, 'synth', `${frames}s`, 'sine', '440');
};

const tones: readonly Tone[] = [
  { frames: 1, channels: 1, rate: 44100 },
  { frames: 999, channels: 2, rate: 48000 },
  { frames: 12345, channels: 6, rate: 96000 },
];

/** Format, options, width, and whether that is assumed. */
type Case = readonly [string, readonly string[], number, boolean];

const uncompressed: readonly Case[] = [
  ['a.wav', ['-b', '8', '-e', 'unsigned'], 1, false],
  ['a.wav', ['-b', '16'], 2, false],
  ['a.wav', ['-b', '24'], 3, false],
  ['a.wav', ['-b', '32'], 4, false],
  ['a.wav', ['-b', '32', '-e', 'float'], 4, false],
  ['a.wav', ['-b', '64', '-e', 'float'], 8, false],
  ['a.wav', ['-e', 'a-law'], 2, true],
  ['a.wav', ['-e', 'mu-law'], 2, true],
  ['a.aiff', ['-b', '8'], 1, false],
  ['a.aiff', ['-b', '16'], 2, false],
  ['a.aiff', ['-b', '24'], 3, false],
  ['a.aiff', ['-b', '32'], 4, false],
  ['a.aifc', ['-b', '16'], 2, false],
  ['a.aifc', ['-b', '24'], 3, false],
  ['a.aifc', ['-b', '32', '-e', 'float'], 4, false],
  ['a.flac', ['-b', '8'], 1, false],
  ['a.flac', ['-b', '16'], 2, false],
  ['a.flac', ['-b', '24'], 3, false],
];

const formatOf = (name: string): string =>
  name.endsWith('wav') ? 'wav' : name.endsWith('flac') ? 'flac' : 'aiff';

describe.skipIf(!needs('sox', 'sox'))('files written by sox', () => {
  test.each(
    uncompressed.map(([name, options, ...rest]) => [name, options.join(' '), ...rest] as const),
  )('%s %s', async (name, options, width, widthAssumed) => {
    for (const asked of tones) {
      tone(asked, name, ...options.split(' '));
      const { result, reads } = await countReads(read(name));
      const plain = { format: formatOf(name), width, widthAssumed, loop: null, remarks: [] };
      expect(result).toEqual({ ...plain, ...asked });
      expect(reads).toHaveLength(1);
    }
  });

  test.each(['ms-adpcm', 'ima-adpcm', 'gsm'])(
    'WAVE compressed as %s, with its fact chunk',
    async (codec) => {
      for (const frames of [2000, 2024, 12345]) {
        const channels = codec === 'gsm' ? 1 : 2;
        tone({ frames, channels, rate: 8000 }, 'a.wav', '-e', codec);
        const rest = { channels, rate: 8000, width: 2, widthAssumed: true, remarks: [] };
        expect(await headerOf(read('a.wav'))).toMatchObject({ frames, ...rest });
      }
    },
  );

  test.each(['wav', 'aiff', 'aifc'])(
    '%s through a pipe, its sizes never filled in',
    async (type) => {
      const script = `sox -r 48000 -c 2 -n -b 24 -t ${type} - synth 5000s sine 440 | cat > piped`;
      run('sh', '-c', script);
      const known = { frames: 5000, channels: 2, rate: 48000, width: 3 };
      expect(await headerOf(read('piped'))).toMatchObject({
        ...known,
        remarks: [{ code: 'size-unset' }],
      });
    },
  );

  test.each(['amb', 'w64', 'au', 'voc', 'sph', 'caf', 'gsm', 'xi'])(
    '%s is a fault or WAVE',
    async (type) => {
      tone({ frames: 500, channels: 1, rate: 8000 }, `a.${type}`);
      expect(await headerOf(read(`a.${type}`))).toHaveProperty('code');
    },
  );

  it('as long as sox itself says when cut', async () => {
    tone({ frames: 5000, channels: 2, rate: 44100 }, 'whole.wav', '-b', '16');
    const cut = read('whole.wav').subarray(0, 9999);
    writeFileSync(join(folder, 'cut.wav'), cut);
    const frames = run('sox', 'cut.wav', '-t', 'raw', '-').length / 4;
    expect(await headerOf(cut)).toMatchObject({ frames, remarks: [{ code: 'sound-cut' }] });
  });
});

describe.skipIf(!needs('flac', 'flac') || !needs('sox', 'sox'))('files written by flac', () => {
  const header = { format: 'flac', channels: 2, rate: 44100, width: 2, widthAssumed: false };

  const withLoop = (): void => {
    tone({ frames: 20000, channels: 2, rate: 44100 }, 'plain.wav', '-b', '16');
    const plain = read('plain.wav');
    const looped = joinBytes(plain, smpl([100, 19000]));
    new DataView(looped.buffer).setUint32(4, looped.length - 8, true);
    writeFileSync(join(folder, 'looped.wav'), looped);
  };

  it('keep the loop of the WAVE file with its foreign metadata', async () => {
    withLoop();
    const loop = { start: 100, end: 19000 };
    run('flac', '-f', '--keep-foreign-metadata', 'looped.wav', '-o', 'looped.flac');
    const expected = { ...header, frames: 20000, loop, remarks: [] };
    expect(await headerOf(read('looped.flac'))).toEqual(expected);
    expect(await headerOf(read('looped.wav'))).toEqual({ ...expected, format: 'wav' });
  });

  it('are read with a picture, padding and no seek table', async () => {
    withLoop();
    run('flac', '-f', '--no-seektable', '--padding=9000', '-8', 'plain.wav', '-o', 'a.flac');
    const expected = { ...header, frames: 20000, loop: null, remarks: [] };
    const { result, reads } = await countReads(read('a.flac'));
    expect(result).toEqual(expected);
    expect(reads.length).toBeLessThanOrEqual(2);
  });

  it('that went through a pipe do not say how long they are', async () => {
    withLoop();
    const raw = '--force-raw-format --endian=little --sign=signed --channels=2 --bps=16';
    const script = `tail -c +45 plain.wav | flac ${raw} --sample-rate=44100 -c - | cat > piped.flac`;
    run('sh', '-c', script);
    expect(await headerOf(read('piped.flac'))).toEqual({ code: 'length-unknown' });
  });

  it('in Ogg are not read', async () => {
    withLoop();
    run('flac', '-f', '--ogg', 'plain.wav', '-o', 'a.oga');
    expect(await headerOf(read('a.oga'))).toEqual({ code: 'unsupported', what: 'Ogg FLAC' });
  });
});

describe.skipIf(!needs('oggenc', 'vorbis-tools') || !needs('sox', 'sox'))(
  'files written by oggenc',
  () => {
    test.each([
      [1, 1, 44100, '1'],
      [999, 2, 48000, '5'],
      [100_000, 1, 22050, '-1'],
      [300_000, 2, 44100, '10'],
    ])('%i frames, %i channels, %i Hz, quality %s', async (frames, channels, rate, quality) => {
      const input = ['-r', `${rate}`, '-c', `${channels}`, '-n'];
      run('sox', ...input, '-b', '16', 'a.wav', 'synth', `${frames}s`, 'whitenoise');
      run('oggenc', '-q', quality, '-s', '5', 'a.wav', '-o', 'a.ogg');
      const { result, reads } = await countReads(read('a.ogg'));
      const plain = { format: 'ogg-vorbis', width: 2, widthAssumed: true, loop: null };
      expect(result).toEqual({ ...plain, frames, channels, rate, remarks: [] });
      expect(reads.length).toBeLessThanOrEqual(2);

      const { format } = await parseBuffer(read('a.ogg'), undefined, { duration: true });
      expect([format.numberOfSamples, format.numberOfChannels, format.sampleRate]).toEqual([
        frames,
        channels,
        rate,
      ]);
    });

    it('two in one file are streams in a row', async () => {
      tone({ frames: 5000, channels: 1, rate: 44100 }, 'a.wav', '-b', '16');
      run('oggenc', '-Q', '-s', '1', 'a.wav', '-o', 'one.ogg');
      run('oggenc', '-Q', '-s', '2', 'a.wav', '-o', 'two.ogg');
      const what = 'Ogg, several streams in a row';
      const both = joinBytes(read('one.ogg'), read('two.ogg'));
      expect(await headerOf(both)).toEqual({ code: 'unsupported', what });
    });
  },
);
