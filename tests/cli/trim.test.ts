/** `keepset trim`, as a person runs it: what it writes, what it refuses, and what it leaves alone. */
import { mkdir, readFile, symlink, writeFile } from 'node:fs/promises';
import { parseMidi, writeMidi } from 'midi-file';
import { describe, expect } from 'vitest';
import type { Trim } from '../../src/trim/trim.ts';
import { cue, cutCue, note, plainCue, program } from '../jobs/small-score.ts';
import { expectError, keepset, type Ended } from './keepset.ts';
import { test as base, type Folder } from './material.ts';
import { document } from './schemas.ts';

/** The small score and its plan: of four zones two are played. */
const test = base.extend<{ planned: Folder }>({
  planned: async ({ score }, use) => {
    await planIn(score, ['cues', '-i', 'bank.sf2']);
    await use(score);
  },
});

const planIn = async (folder: Folder, args: readonly string[]): Promise<void> => {
  const made = await keepset(['plan', ...args, '-o', 'keep.json'], { cwd: folder.path });
  expect(made.stderr).not.toMatch(/^error/mu);
  expect(made.code).toBe(0);
};

const trimIn = (folder: Folder, more: readonly string[] = [], out = 'small'): Promise<Ended> =>
  keepset(['trim', '--keep', 'keep.json', '--out', out, ...more], { cwd: folder.path });

const trimmedIn = async (folder: Folder, more: readonly string[] = []): Promise<Trim> => {
  const { code, stdout, stderr } = await trimIn(folder, ['--format', 'json', ...more]);
  expect(stderr).toBe('');
  expect(code).toBe(0);
  return document(stdout, 'trim@1');
};

const others = (state: Readonly<Record<string, string>>) =>
  Object.fromEntries(Object.entries(state).filter(([name]) => !name.startsWith('small/')));

describe('what it writes', () => {
  test('a smaller bank, its template and a list; nothing else changes', async ({ planned }) => {
    const before = await planned.state();
    const trim = await trimmedIn(planned);
    // Program 0 has two samples of 100 and 200 frames; 400 and 800 frames of strings go.
    expect(trim).toMatchObject({
      dryRun: false,
      accepted: { damage: [], partial: [], unmapped: false },
      instruments: [
        {
          outcome: 'trimmed',
          path: 'bank.sf2',
          zones: { before: 4, after: 2 },
          samples: { before: 4, after: 2 },
          memory: { before: 3000, after: 600 },
        },
      ],
      proof: { cues: 1, notes: 2, zones: 2 },
    });
    expect(trim.findings.filter(({ severity }) => severity !== 'note')).toEqual([]);
    const after = await planned.state();
    expect(others(after)).toEqual(before);
    const written = Object.keys(after).filter((name) => name.startsWith('small/'));
    expect(written.sort()).toEqual(['small/bank.sf2', 'small/keepset.yaml', 'small/trim.json']);
    expect(document(await readFile(planned.at('small/trim.json'), 'utf8'), 'trim@1')).toEqual(trim);
    const { disk } = trim.instruments[0]!;
    expect(disk.before).toBe((await readFile(planned.at('bank.sf2'))).length);
    expect(disk.after).toBe((await readFile(planned.at('small/bank.sf2'))).length);
    expect(trim.total.disk).toEqual(disk);
  });

  test('a plan of it lets nothing more go', async ({ planned }) => {
    await trimmedIn(planned);
    const again = await keepset(['plan', '--template', 'small/keepset.yaml', '--format', 'json'], {
      cwd: planned.path,
    });
    const plan = document(again.stdout, 'plan@1');
    expect(plan.total).toMatchObject({ zones: 2, zonesKept: 2, samples: 2, samplesKept: 2 });
  });

  test('the same bytes every time; --force writes it again', async ({ planned }) => {
    await trimmedIn(planned);
    const first = await planned.state();
    await trimmedIn(planned, ['--force']);
    expect(await planned.state()).toEqual(first);
  });

  test('--dry-run tells and writes nothing', async ({ planned }) => {
    const before = await planned.state();
    const trim = await trimmedIn(planned, ['--dry-run']);
    expect(await planned.state()).toEqual(before);
    expect(trim).toMatchObject({ dryRun: true, proof: null });
    const real = await trimmedIn(planned);
    expect({ ...real, dryRun: true, proof: null }).toEqual(trim);
  });

  test('the table says first what was done', async ({ planned }) => {
    const { code, stdout, stderr } = await trimIn(planned);
    expect([code, stderr]).toEqual([0, '']);
    expect(stdout).toMatch(/^.*2 notes/u);
  });

  test('into folders that are not there yet, seen from another place', async ({ planned }) => {
    const args = ['trim', '--keep', 'keep.json', '--out', 'a/b/small', '--format', 'json'];
    expect((await keepset(args, { cwd: planned.path })).code).toBe(0);
    expect(await readFile(planned.at('a/b/small/keepset.yaml'), 'utf8')).toContain(
      '"../../../cues/1m1.mid"',
    );
  });
});

describe('what a review has found', () => {
  const wav = (fill: number): Uint8Array => {
    const bytes = Buffer.alloc(44 + 200, fill);
    bytes.write('RIFF', 0, 'latin1');
    bytes.writeUInt32LE(236, 4);
    bytes.write('WAVEfmt ', 8, 'latin1');
    bytes.writeUInt32LE(16, 16);
    bytes.writeUInt32LE(0x0001_0001, 20);
    bytes.writeUInt32LE(44_100, 24);
    bytes.writeUInt32LE(88_200, 28);
    bytes.writeUInt32LE(0x0010_0002, 32);
    bytes.write('data', 36, 'latin1');
    bytes.writeUInt32LE(200, 40);
    return bytes;
  };
  const oneNote = cue({ name: 'Keys', events: [note(0, 64)] });
  const kit = '<region> key=64 sample=../lib/a.wav\n<region> key=65 sample=../lib/b.wav\n';
  const template = (more: string): string =>
    `cues: ../cues\ninstruments: { kit: { file: kit.sfz } }\nroutes: [{ track: "*", instrument: kit }]\n${more}`;

  test('a template behind a link: what was planned is what is copied', async ({ folder }) => {
    await folder.write({
      'real/tpl/kit.sfz': kit,
      'real/tpl/keepset.yaml': template(''),
      'real/lib/a.wav': wav(1),
      'real/lib/b.wav': wav(1),
      'real/cues/1m1.mid': oneNote,
      // Where the same steps lead when nobody asks the disk.
      'deep/lib/a.wav': wav(2),
      'deep/lib/b.wav': wav(2),
      'deep/cues/1m1.mid': oneNote,
    });
    await symlink('../real/tpl', folder.at('deep/tpl'));
    const args = ['--template', 'deep/tpl/keepset.yaml'];
    await planIn(folder, args);
    const trim = await trimmedIn(folder, args);
    const sample = trim.files.find(({ path }) => path.endsWith('a.wav'))!;
    expect(await readFile(folder.at(`small/${sample.path}`))).toEqual(Buffer.from(wav(1)));
    expect(await readFile(folder.at('small/keepset.yaml'), 'utf8')).toContain('"../real/cues"');
  });

  test('samples beside the folder of the template come along', async ({ folder }) => {
    await folder.write({
      'proj/kit.sfz': kit,
      'proj/keepset.yaml': template('').replace('../cues', 'cues'),
      'lib/a.wav': wav(1),
      'lib/b.wav': wav(1),
      'proj/cues/1m1.mid': oneNote,
    });
    const args = ['--template', 'proj/keepset.yaml'];
    await planIn(folder, args);
    const { files } = await trimmedIn(folder, args);
    expect(files.map(({ path }) => path)).toEqual([
      'keepset.yaml',
      'kit/here/kit.sfz',
      'kit/lib/a.wav',
    ]);
  });

  test('text on lines of its own in the template', async ({ folder }) => {
    await folder.write({
      'kit.sfz': kit.replaceAll('../lib', 'lib'),
      'lib/a.wav': wav(1),
      'keepset.yaml':
        'instruments:\n  1:\n    file: >-\n      kit.sfz\nroutes:\n  - { track: "*", instrument: 1 }\n',
      'cues/1m1.mid': oneNote,
    });
    await planIn(folder, ['cues', '--headroom', 'velocity=3']);
    await trimmedIn(folder);
    const again = await keepset(['plan', '--template', 'small/keepset.yaml', '--format', 'json'], {
      cwd: folder.path,
    });
    expect(document(again.stdout, 'plan@1').settings.headroom.velocity).toBe(3);
  });

  test('cues that lie in one file with others and are left out', async ({ folder }) => {
    const both = cue({ name: 'Keys', events: [note(0, 64), note(1920, 65)] });
    const parsed = parseMidi(both);
    parsed.tracks[0]!.splice(1, 0, { deltaTime: 0, type: 'marker', text: '1m1' } as never);
    const at = parsed.tracks[0]!.findIndex(
      (event) => event.type === 'noteOn' && event.noteNumber === 65,
    );
    const { deltaTime } = parsed.tracks[0]![at]!;
    parsed.tracks[0]!.splice(at, 0, { deltaTime, type: 'marker', text: '1m2' } as never);
    parsed.tracks[0]![at + 1]!.deltaTime = 0;
    await folder.write({
      'kit.sfz': kit.replaceAll('../lib', 'lib'),
      'lib/a.wav': wav(1),
      'lib/b.wav': wav(1),
      'reel.mid': Uint8Array.from(writeMidi(parsed)),
    });
    const args = ['reel.mid', '-i', 'kit.sfz', '--split', 'markers', '--without', '1m2'];
    await planIn(folder, args);
    const { proof } = await trimmedIn(folder);
    expect(proof).toMatchObject({ cues: 1, notes: 1, zones: 1 });
    expect(await readFile(folder.at('small/keepset.yaml'), 'utf8')).toContain('--without "1m2"');
  });

  test('a region without a sound does not make a keep file unsound', async ({ folder }) => {
    await folder.write({
      'kit.sfz': '<region> key=64 sample=lib/a.wav\n<region> key=64\n',
      'lib/a.wav': wav(1),
      'cues/1m1.mid': oneNote,
    });
    await planIn(folder, ['cues', '-i', 'kit.sfz']);
    await trimmedIn(folder);
  });

  test('an edit that keeps the size is an edit', async ({ planned }) => {
    await trimmedIn(planned);
    const text = await readFile(planned.at('small/keepset.yaml'), 'utf8');
    await planned.write({ 'small/keepset.yaml': text.replace('Made', 'Mine') });
    const ended = await trimIn(planned, ['--force']);
    expectError(ended, 'trim-out-others', 'small');
  });
});

describe('what it refuses, leaving all as it is', () => {
  const refuses = async (
    folder: Folder,
    code: string,
    more: readonly string[] = [],
    out = 'small',
  ): Promise<void> => {
    const before = await folder.state();
    const ended = await trimIn(folder, more, out);
    expect(ended.code).toBe(2);
    expect(ended.stdout).toBe('');
    expectError(ended, code, /^ {2}--> (.*)$/mu.exec(ended.stderr)?.[1] ?? null);
    expect(await folder.state()).toEqual(before);
  };

  test('a cue that has changed since', async ({ planned }) => {
    await planned.write({ 'cues/1m1.mid': cue({ name: 'Keys', events: [note(0, 20)] }) });
    await refuses(planned, 'trim-cue-changed');
  });

  test('a bank that has changed since', async ({ planned }) => {
    const bytes = await readFile(planned.at('bank.sf2'));
    bytes.write('Kazoo', bytes.lastIndexOf('Keys low'), 'latin1');
    await planned.write({ 'bank.sf2': bytes });
    await refuses(planned, 'trim-instrument-changed');
  });

  test('a template that has changed since', async ({ score }) => {
    const text =
      'cues: cues\ninstruments: { b: { file: bank.sf2 } }\nroutes: [{ track: "*", instrument: b }]\n';
    await score.write({ 'keepset.yaml': text });
    await planIn(score, []);
    await score.write({ 'keepset.yaml': `${text}slack: 60 ms\n` });
    await refuses(score, 'trim-template-changed');
  });

  test('a damaged cue, unless that is accepted: all that it may play stays', async ({ score }) => {
    await score.write({ 'cues/1m2.mid': cutCue() });
    await planIn(score, ['cues', '-i', 'bank.sf2']);
    await refuses(score, 'trim-damaged');
    const trim = await trimmedIn(score, ['--accept-damage', '1m2']);
    expect(trim.accepted.damage).toEqual(['1m2']);
    expect(trim.instruments[0]!.zones).toEqual({ before: 4, after: 4 });
  });

  test('a cue that looks as if something were missing', async ({ score }) => {
    const whole = cue(
      { name: 'Keys', events: [program(0, 0), note(0, 64)] },
      { name: 'Bells', events: [program(0, 0), note(0, 90)] },
    );
    await score.write({ 'cues/1m1 v1.mid': whole, 'cues/1m1 v2.mid': plainCue() });
    await planIn(score, ['cues', '-i', 'bank.sf2']);
    await refuses(score, 'trim-partial');
    expect((await trimmedIn(score, ['--accept-partial', '1m1 v2'])).accepted.partial).toEqual([
      '1m1 v2',
    ]);
  });

  test('a track that no rule takes, unless the plan was told so', async ({ score }) => {
    const text =
      'cues: cues\ninstruments: { b: { file: bank.sf2 } }\nroutes: [{ track: "Keys", instrument: b }]\n';
    await score.write({
      'keepset.yaml': text,
      'cues/1m2.mid': cue(
        { name: 'Keys', events: [note(0, 64)] },
        { name: 'Lost', events: [note(0, 64)] },
      ),
    });
    await planIn(score, ['--allow-unmapped']);
    const keep = JSON.parse(await readFile(score.at('keep.json'), 'utf8')) as {
      settings: { allowUnmapped: boolean };
    };
    expect((await trimmedIn(score)).accepted.unmapped).toBe(true);
    keep.settings.allowUnmapped = false;
    await score.write({ 'keep.json': JSON.stringify(keep) });
    await refuses(score, 'trim-unmapped', ['--force']);
    expect((await trimmedIn(score, ['--force', '--allow-unmapped'])).accepted.unmapped).toBe(true);
  });

  test('to write over what was written, unless told to', async ({ planned }) => {
    await trimmedIn(planned);
    await refuses(planned, 'trim-out-exists');
  });

  test('to write over anything else, whatever it is told', async ({ planned }) => {
    await refuses(planned, 'trim-out-input', ['--force'], 'cues');
    await planned.write({ 'mine/notes.txt': 'mine' });
    await refuses(planned, 'trim-out-exists', ['--force'], 'mine');
    await refuses(planned, 'trim-out-kind', ['--force'], 'bank.sf2');
    await mkdir(planned.at('real'));
    await symlink('real', planned.at('linked'));
    await refuses(planned, 'trim-out-kind', ['--force'], 'linked');
    await refuses(planned, 'output-unwritable', ['--force'], '.');
  });

  test('to remove what a person put there', async ({ planned }) => {
    await trimmedIn(planned);
    await writeFile(planned.at('small/notes.txt'), 'mine');
    await refuses(planned, 'trim-out-others', ['--force']);
  });

  test('when nothing can be made smaller', async ({ score }) => {
    await score.write({ 'table.csv': 'keys,bytes\n0-59,100\n60-127,100\n' });
    await planIn(score, ['cues', '-i', 'table.csv', '--middle-c', 'C4']);
    await refuses(score, 'trim-nothing', ['-i', 'table.csv', '--middle-c', 'C4']);
  });

  test('a keep file that lets go of what is played', async ({ planned }) => {
    interface Kept {
      zone: number;
      reasons: string[];
    }
    const keep = JSON.parse(await readFile(planned.at('keep.json'), 'utf8')) as {
      instruments: { kept: Kept[] }[];
    };
    // An edit by hand: kept for nothing but its player, so that trimming lets it go.
    keep.instruments[0]!.kept[0]!.reasons = ['grain'];
    await planned.write({ 'keep.json': JSON.stringify(keep) });
    const before = await planned.state();
    const ended = await trimIn(planned);
    expect(ended.code).toBe(2);
    expect(ended.stderr).toMatch(/^error\[(?:keep-file-disagrees|trim-unmet)\]/mu);
    expect(await planned.state()).toEqual(before);
  });

  test.each([
    ['--out', ['trim', '--keep', 'keep.json']],
    ['--keep', ['trim', '--out', 'small']],
  ])('a call without %s', async (option, args) => {
    const { code, stderr } = await keepset(args);
    expect(code).toBe(2);
    expect(stderr).toContain(option);
  });
});
