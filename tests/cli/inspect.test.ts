import { expect } from 'vitest';
import type { Inspection } from '../../src/keep/inspect.ts';
import { fmt, riff, wave, zeros } from '../samples/writers.ts';
import { expectError, keepset } from './keepset.ts';
import { test } from './material.ts';
import { document } from './schemas.ts';

declare module './schemas.ts' {
  interface Documents {
    'inspect@1': Inspection;
  }
}

const table = [
  'articulation;switch;keys;velocities;frames;rate;bits;channels',
  'sustain;C1;C2-C4;1-64|65-127;48000;48000;24;2',
  'staccato;D1;C2;1-127;9600;48000;24;2',
].join('\n');

const inspection = (text: string): Inspection => document(text, 'inspect@1');

test('the demo bank: presets with their keys, and what all of it takes', async ({ folder }) => {
  await keepset(['demo', '--out', '.', '--quiet'], { cwd: folder.path });
  const args = ['inspect', 'instruments/harbour.sf2'];
  const result = await keepset(args, { cwd: folder.path });
  expect(result.code).toBe(0);
  expect(result.stdout).toMatch(/^harbour \(instruments\/harbour\.sf2\), a SoundFont bank\n/);
  const found = await keepset([...args, '--format', 'json'], { cwd: folder.path });
  expect(found).toMatchObject({ code: 0, stderr: '' });
  const { instrument, articulations } = inspection(found.stdout);
  expect(instrument).toMatchObject({ kind: 'soundfont bank', playedAs: 'bank', widths: [2] });
  for (const { name, zones } of articulations) {
    const row = result.stdout.split('\n').find((line) => line.startsWith(`${name}  `));
    expect(row).toContain(` ${String(zones)} `);
  }
  const plan = ['plan', 'cues', '-i', 'instruments/harbour.sf2', '--format', 'json'];
  const planned = document((await keepset(plan, { cwd: folder.path })).stdout, 'plan@1');
  expect(instrument.bytes).toBe(planned.total.bytes.full);
  expect(instrument.zones).toBe(planned.total.zones);
});

test('one preset; its layers with --verbose', async ({ score }) => {
  const args = ['inspect', 'bank.sf2#0:48'];
  const plain = await keepset(args, { cwd: score.path });
  expect(plain).toMatchObject({ code: 0, stderr: '' });
  expect(plain.stdout).toContain('one preset of a SoundFont bank');
  expect(plain.stdout).not.toContain('\nLayers\n');
  const verbose = await keepset([...args, '--verbose'], { cwd: score.path });
  expect(verbose.stdout).toContain('\nLayers\n');
  const found = await keepset([...args, '--format', 'json'], { cwd: score.path });
  // By hand: the two samples of the strings, 400 and 800 frames of 2 bytes.
  expect(inspection(found.stdout)).toMatchObject({
    instrument: { id: 'bank#0:48', kind: 'soundfont preset', samples: 2, bytes: 2400 },
    articulations: [{ name: '0:48 Strings', zones: 2, keys: [[0, 127]] }],
  });
});

test('a zone table goes by the middle C that is given', async ({ folder }) => {
  await folder.write({ 'horns.csv': table });
  const args = (octave: string) => ['inspect', 'horns.csv', '--middle-c', octave];
  const found = async (octave: string): Promise<Inspection> =>
    inspection((await keepset([...args(octave), '--format', 'json'], { cwd: folder.path })).stdout);
  const [c4, c3] = [await found('C4'), await found('C3')];
  expect(c4.articulations.map(({ keys }) => keys)).toEqual([[[36, 60]], [[36, 36]]]);
  expect(c3.articulations.map(({ keys }) => keys)).toEqual([[[48, 72]], [[48, 48]]]);
  const { stdout } = await keepset(args('C3'), { cwd: folder.path });
  // The report names keys as the table does, with their numbers.
  expect(stdout).toMatch(/^sustain +C1 \(36\) +C2-C4 \(48-72\) /m);
  expect(stdout).toContain('middle C is C3 (60)');
});

test('an SFZ instrument, one of its samples missing', async ({ folder }) => {
  await folder.write({
    'kit/strings.sfz':
      '<region> hikey=59 sample=low.wav\n<region> lokey=60 sample=SUB\\High.wav\n<region> key=60 sample=gone.wav\n',
    'kit/low.wav': wave(fmt(), riff('data', zeros(200))),
    'kit/sub/high.wav': wave(fmt(), riff('data', zeros(400))),
  });
  const args = ['inspect', 'kit/strings.sfz'];
  const table = await keepset(args, { cwd: folder.path });
  expect(table.code).toBe(0);
  expect(table.stdout).toMatch(/^strings \(kit\/strings\.sfz\), an SFZ instrument\.?\n/);
  expect(table.stderr).toMatch(/^warning\[samples-missing\]: .*"gone\.wav"/);
  const json = await keepset([...args, '--format', 'json'], { cwd: folder.path });
  const { instrument, findings } = inspection(json.stdout);
  // By hand: 300 frames of 2 bytes.
  expect(instrument).toMatchObject({ kind: 'sfz instrument', zones: 3, samples: 3, bytes: 600 });
  expect(findings.map(({ code }) => code).sort()).toEqual(['sample-case', 'samples-missing']);
  const strict = await keepset([...args, '--strict'], { cwd: folder.path });
  expect(strict.code).toBe(2);
});

test('without it: which octave?', async ({ folder }) => {
  await folder.write({ 'horns.csv': table });
  const result = await keepset(['inspect', 'horns.csv'], { cwd: folder.path });
  expect(result).toMatchObject({ code: 2, stdout: '' });
  expectError(result, 'usage');
  expect(result.stderr).toContain('--middle-c C4');
});

test.for([
  [['horns.csv', '--middle-c', 'H4'], 'usage', null],
  [['horns.csv#0:1', '--middle-c', 'C4'], 'usage', null],
  [['strings.sfz#0:1'], 'usage', null],
  [['strings.sfz'], 'path-missing', 'strings.sfz'],
  [['bank.sf2#x'], 'usage', null],
  [['bank.sf2#0:9'], 'preset-missing', 'bank.sf2'],
  [['nothing.sf2'], 'path-missing', 'nothing.sf2'],
  [['cues/1m1.mid'], 'bank-not-a-soundfont', 'cues/1m1.mid (byte 0x0)'],
  [['cues'], 'path-not-a-file', 'cues'],
] as const)('%j: %s', async ([args, code, where], { score }) => {
  await score.write({ 'horns.csv': table });
  const result = await keepset(['inspect', ...args], { cwd: score.path });
  expect(result).toMatchObject({ code: 2, stdout: '' });
  expectError(result, code, where);
});

test('all faults of a table at once, in the table and as JSON', async ({ folder }) => {
  await folder.write({ 'bad.csv': 'keys;bytes\nH9;1000\n60;many\n' });
  const args = ['inspect', 'bad.csv', '--middle-c', 'C4'];
  const result = await keepset(args, { cwd: folder.path });
  expect(result).toMatchObject({ code: 2, stdout: '' });
  expect(result.stderr.match(/--> bad\.csv:\d+:\d+/g)).toEqual([
    '--> bad.csv:2:1',
    '--> bad.csv:3:4',
  ]);
  const json = await keepset([...args, '--format', 'json'], { cwd: folder.path });
  const { error, more } = document(json.stdout, 'error@1');
  expect(error.message).toMatch(/^bad\.csv:2:1: /);
  expect(more?.map(({ message }) => message.split(': ')[0])).toEqual(['bad.csv:3:4']);
});

test('names in it act on no terminal', async ({ folder }) => {
  const name = 'sus\u001b[31m\u202e';
  await folder.write({ 'x.csv': `articulation;keys;bytes\n${name};60;1000\nb;61;1000\n` });
  const args = ['inspect', 'x.csv', '--middle-c', 'C4', '--verbose'];
  for (const format of ['table', 'json']) {
    const { code, stdout } = await keepset([...args, '--format', format], { cwd: folder.path });
    expect(code).toBe(0);
    expect(stdout).toContain('sus');
    expect(stdout.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}]/u);
  }
});
