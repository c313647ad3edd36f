import { expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { inspect } from '../../src/jobs/inspect.ts';
import { plan } from '../../src/jobs/plan.ts';
import { fmt, riff, wave, zeros } from '../samples/writers.ts';
import { cue, note } from './small-score.ts';

const wav = (frames: number): Uint8Array => wave(fmt(), riff('data', zeros(frames * 2)));

/** Two switches, C1 (24) and C#1 (25), two keys under each, a sample a region. */
const instrument = [
  '<global> sw_lokey=24 sw_hikey=25 sw_default=24',
  '<region> sw_last=24 key=60 sample=a.wav',
  '<region> sw_last=25 key=60 sample=b.wav',
  '<region> sw_last=24 key=61 sample=c.wav',
  '<region> sw_last=25 key=61 sample=d.wav',
].join('\n');

const contents = (folder = '') => ({
  [`${folder}strings.sfz`]: instrument,
  [`${folder}a.wav`]: wav(100),
  [`${folder}b.wav`]: wav(200),
  [`${folder}c.wav`]: wav(400),
  [`${folder}d.wav`]: wav(800),
});

/** The second track's switch stands between the first track's switch and its note. */
const twoTracks = cue(
  { name: 'Vn 1', events: [note(0, 24), note(960, 60)] },
  { name: 'Vn 2', events: [note(480, 25), note(1440, 61)] },
);

const playedZones = ({ instruments }: Awaited<ReturnType<typeof plan>>): readonly number[] =>
  instruments.flatMap(({ kept }) =>
    kept.filter(({ reasons }) => reasons.includes('played')).map(({ zone }) => zone),
  );

test('without a template each track plays a copy of its own', async () => {
  const files = new MemoryFiles({ ...contents(), 'cues/1m1.mid': twoTracks });
  const result = await plan({ cues: ['cues'], instrument: 'strings.sfz', files });
  expect(playedZones(result)).toEqual([0, 3]);
  expect(result.instruments[0]).toMatchObject({
    ...{ id: 'strings', source: 'strings.sfz', zones: 4, samples: 4 },
    // By hand: 1 500 frames of 2 bytes.
    bytes: { full: 3000 },
  });
});

test('in a template, its samples seen from the folder of the instrument', async () => {
  const yaml = [
    'machines: { a: { memory: 1 GiB } }',
    'players: { p: { loads: whole, shares: machine, unloads: sample } }',
    'instruments: { strings: { file: library/strings.sfz } }',
    'routes: [ { track: "Vn*", instrument: strings } ]',
  ].join('\n');
  const files = new MemoryFiles({
    ...contents('score/library/'),
    'score/keepset.yaml': yaml,
    'cues/1m1.mid': twoTracks,
  });
  const result = await plan({ cues: ['cues'], template: 'score/keepset.yaml', files });
  expect(playedZones(result)).toEqual([0, 3]);
  expect(result.instruments[0]).toMatchObject({
    ...{ id: 'strings', source: 'library/strings.sfz', samples: 4, bytes: { full: 3000 } },
  });
});

test('inspect, with a sample missing', async () => {
  const rest = Object.entries(contents()).filter(([path]) => path !== 'b.wav');
  const files = new MemoryFiles(Object.fromEntries(rest));
  const result = await inspect({ instrument: 'strings.sfz', files });
  expect(result.instrument).toMatchObject({
    ...{ id: 'strings', kind: 'sfz instrument', playedAs: 'single', zones: 4, samples: 4 },
    ...{ unknownSamples: 1, bytes: 2600, rates: [44_100], widths: [2], channels: [1] },
  });
  expect(result.findings).toMatchObject([
    { code: 'samples-missing', file: 'strings.sfz', args: { samples: 1, regions: 1 } },
  ]);
});

test.for([
  ['nothing.sfz', 'path-missing', 'nothing.sfz'],
  ['folder.sfz', 'path-not-a-file', 'folder.sfz'],
  ['zeros.sfz', 'sfz-not-text', 'zeros.sfz'],
])('%s: %s', async ([path, code, file]) => {
  const files = new MemoryFiles({ 'folder.sfz/x': '', 'zeros.sfz': zeros(40) });
  const reading = inspect({ instrument: path!, files });
  await expect(reading).rejects.toMatchObject({ name: 'InputError', finding: { code, file } });
});

test('an SFZ file has no presets', async () => {
  const reading = inspect({ instrument: 'strings.sfz#0:1', files: new MemoryFiles(contents()) });
  await expect(reading).rejects.toMatchObject({ name: 'UsageError' });
});
