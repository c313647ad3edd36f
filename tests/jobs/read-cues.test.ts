import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { readCues, reelFindings, type ReadCue } from '../../src/jobs/read-cues.ts';
import { cue, cutCue, note, plainCue, program } from './small-score.ts';

const readAll = async (
  contents: Readonly<Record<string, Uint8Array | string>>,
  without: readonly string[] = [],
): Promise<readonly ReadCue[]> => {
  const all: ReadCue[] = [];
  for await (const read of readCues(new MemoryFiles(contents), ['cues'], { without }))
    all.push(read);
  return all;
};

const named = (names: readonly string[]) =>
  Object.fromEntries(names.map((name) => [`cues/${name}`, plainCue()]));

describe('the order of the reel', () => {
  test('by numbers, whatever the folders; names without a number last', async () => {
    const reel = [
      'z/1m1 Titles.mid',
      '1m2 Harbour v3.mid',
      '1m2 Harbour v10.mid',
      'b/1m2A.mid',
      '1m10.mid',
      'a/2m1.mid',
      '10m1.mid',
      'Bonus 2.mid',
      'Bonus 10.mid',
    ];
    const read = await readAll(named(reel.toReversed()));
    expect(read.map(({ file }) => file.path)).toEqual(reel.map((name) => `cues/${name}`));
  });

  test('files of one cue count from 0, in the order of their paths', async () => {
    const read = await readAll(named(['1m1 Strings.mid', '1m1 Brass.mid', '1m2.mid']));
    expect(read.map(({ file: { cue: id, path, file } }) => [id, path, file])).toEqual([
      ['1m1', 'cues/1m1 Brass.mid', 0],
      ['1m1', 'cues/1m1 Strings.mid', 1],
      ['1m2', 'cues/1m2.mid', 0],
    ]);
  });
});

describe('a bad cue does not stop the others', () => {
  test('unreadable: no score, an error that names the file; damaged: a warning', async () => {
    const read = await readAll({
      'cues/1m1.mid': 'Dear diary',
      'cues/1m2.mid': cutCue(),
      'cues/1m3.mid': '',
      'cues/1m4.mid': plainCue(),
    });
    const found = read.map(({ score, findings }) => [
      score !== null,
      findings.map(({ severity, code, file }) => `${severity} ${code} ${String(file)}`).at(-1),
    ]);
    expect(found).toEqual([
      [false, 'error midi-not-a-midi-file cues/1m1.mid'],
      [true, 'warning cue-damaged cues/1m2.mid'],
      [false, 'error midi-empty cues/1m3.mid'],
      [true, undefined],
    ]);
  });

  test('tracks that the header promises and that are not there are damage, too', async () => {
    const promised = cue({ name: 'Keys', events: [program(0, 0), note(0, 64)] });
    // The number of tracks, bytes 10 and 11 of the header (SMF 1.0, "Header Chunks").
    promised[11] = 3;
    const [read] = await readAll({ 'cues/1m1.mid': promised });
    expect(read?.findings).toContainEqual(
      expect.objectContaining({ severity: 'warning', code: 'cue-damaged', args: { tracks: 2 } }),
    );
  });

  test('a disk that fails on one file', async () => {
    class Failing extends MemoryFiles {
      override async read(path: string) {
        if (path === 'cues/1m1.mid') return super.read('not there');
        return super.read(path);
      }
    }
    const files = new Failing({ ...named(['1m1.mid', '1m2.mid']) });
    const states: (readonly [boolean, string])[] = [];
    for await (const { file, score } of readCues(files, ['cues'])) {
      states.push([score !== null, file.sha256]);
    }
    expect(states).toEqual([
      [false, '0'.repeat(64)],
      [true, expect.stringMatching(/^[0-9a-f]{64}$/)],
    ]);
  });

  test('a fault of the program does', async () => {
    class Broken extends MemoryFiles {
      override read(): Promise<Uint8Array> {
        return Promise.reject(new TypeError('a fault'));
      }
    }
    const reading = readCues(new Broken(named(['1m1.mid'])), ['cues']).next();
    await expect(reading).rejects.toThrow(TypeError);
  });
});

describe('cues that are left out', () => {
  test('all files of the id, and only they', async () => {
    const read = await readAll(named(['1m1 a.mid', '1m1 b.mid', '1m1 v2.mid', '1m11.mid']), [
      '1m1',
    ]);
    expect(read.map(({ file }) => file.cue)).toEqual(['1m1 v2', '1m11']);
  });

  test('are not even read', async () => {
    const files = new MemoryFiles({ ...named(['1m1.mid', '1m2.mid']) });
    for await (const read of readCues(files, ['cues'], { without: ['1m1'] }))
      expect(read.file.cue).toBe('1m2');
    expect(files.bytesRead('cues/1m1.mid')).toBe(0);
    expect(files.bytesRead('cues/1m2.mid')).toBe(plainCue().length);
  });

  test.for([
    { without: ['1m9'], says: 'No cue is called "1m9".' },
    { without: ['1M1'], says: 'No cue is called "1M1".' },
    { without: ['1m1', '1m2'], says: 'Every cue is left out.' },
  ])('$without is refused', async ({ without, says }) => {
    const reading = readAll(named(['1m1.mid', '1m2.mid']), without);
    await expect(reading).rejects.toMatchObject({ name: 'UsageError', message: says });
  });
});

describe('findings on the reel', () => {
  const findings = async (names: readonly string[]) =>
    reelFindings((await readAll(named(names))).map(({ file }) => file));

  test('a cue in several files, and a cue in several versions', async () => {
    expect(
      await findings(['1m1 a.mid', '1m1 b.mid', '1m2 v1.mid', '1m2 v3.mid', '1m3.mid']),
    ).toEqual([
      {
        ...{ code: 'cue-several-files', severity: 'note', file: 'cues/1m1 a.mid', at: null },
        args: { cue: '1m1', files: 2 },
      },
      {
        ...{ code: 'cue-versions', severity: 'note', file: null, at: null },
        args: { cue: '1m2', versions: ['1m2 v1', '1m2 v3'] },
      },
    ]);
  });

  test('none', async () => {
    expect(await findings(['1m1.mid', '1m2 v2.mid', '2m1.mid'])).toEqual([]);
  });
});
