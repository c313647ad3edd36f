import { describe, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { parseOutline } from '../../src/instruments/outline/reading/parse-outline.ts';
import { draft } from '../../src/jobs/draft.ts';
import { templateOf } from './route-all.ts';
import { cueOf } from './track-file.ts';

const cue = cueOf([{ name: 'Harp' }, { name: 'Vc leg' }, { name: 'Vc stac' }]);
const files = (more: Readonly<Record<string, string>> = {}): MemoryFiles =>
  new MemoryFiles({ 'cues/1m1.mid': cue, ...more });

test('none without a folder for them', async () => {
  const { outlines, text } = await draft({ cues: ['cues'], files: files() });
  expect(outlines).toEqual([]);
  expect(text).not.toContain('outline:');
});

test('the folder as the user names it, and as the template names it', async () => {
  const { outlines, text } = await draft({
    ...{ cues: ['cues'], files: files(), path: 'show/keepset.yaml', outlines: 'books' },
  });
  expect(outlines.map(({ path }) => path)).toEqual(['books/harp.yaml', 'books/vc.yaml']);
  const { instruments } = await templateOf(text);
  expect(instruments.map(({ source }) => source)).toEqual([
    { kind: 'outline', path: '../books/harp.yaml' },
    { kind: 'outline', path: '../books/vc.yaml' },
  ]);
});

test.each(['.', './', 'a folder, of mine', 'o/', '#1'])('in %s', async (outlines) => {
  const made = await draft({ cues: ['cues'], files: files(), outlines });
  const { instruments } = await templateOf(made.text);
  const paths = instruments.map(({ source }) => source.path);
  expect(paths).toEqual(made.outlines.map(({ path }) => path));
  expect(paths[0]).toMatch(/harp\.yaml$/);
});

test('what is there already is said so', async () => {
  const { outlines } = await draft({
    ...{ cues: ['cues'], outlines: 'outlines', files: files({ 'outlines/vc.yaml': 'mine' }) },
  });
  expect(outlines.map(({ instrument, isThere }) => [instrument, isThere])).toEqual([
    ['harp', false],
    ['vc', true],
  ]);
});

describe('an update', () => {
  const template = `middle-c: C4
players: { p: { loads: whole, shares: machine, unloads: sample } }
names: { leg: the long ones }
instruments: { harp: { file: harp.sf2 } }
routes: [{ track: Harp, instrument: harp }]
`;
  test('gives outlines to new instruments alone, in the words of the template', async () => {
    const { outlines, text } = await draft({
      cues: ['cues'],
      files: files({ 'keepset.yaml': template }),
      update: { path: 'keepset.yaml' },
      outlines: 'outlines',
    });
    expect(outlines.map(({ path }) => path)).toEqual(['outlines/vc.yaml']);
    const [{ text: stub } = { text: '' }] = outlines;
    const { outline } = parseOutline('vc.yaml', new TextEncoder().encode(stub));
    expect(outline.articulations.map(({ name }) => name)).toEqual(['the long ones', 'staccato']);
    const { instruments } = await templateOf(text);
    expect(instruments.map(({ source }) => source.kind)).toEqual(['soundfont', 'outline']);
  });
});

test('the demo: switches that are seen are those that its own outlines have', async () => {
  const demo = new MemoryFiles(
    Object.fromEntries(demoFiles().map(({ path, bytes }) => [path, bytes])),
  );
  const { outlines } = await draft({ cues: ['cues'], files: demo, outlines: 'drafted' });
  const stub = (id: string): string => outlines.find((one) => one.instrument === id)!.text;
  // Keys 12, 14 and 15: legato in two cues, the others once each.
  expect(stub('solo-vc')).toContain('# key 12: pressed 1 time, first in 2m4 bar ');
  expect(stub('solo-vc')).toContain('# key 14: pressed 2 times, first in 1m4 v2 bar ');
  expect(stub('solo-vc')).toContain('# key 15: pressed 1 time, first in 2m4 bar ');
  expect(stub('solo-vc').match(/: pressed/g)).toHaveLength(3);
  expect(stub('bsn').match(/: pressed/g)).toHaveLength(2);
});

test('the outlines that the demo has filled in can be read', () => {
  const filled = demoFiles().filter(({ path }) => path.startsWith('outlines/'));
  expect(
    filled.map(({ path, bytes }) => {
      const { outline, findings } = parseOutline(path, bytes);
      const names = outline.articulations.map(({ name }) => name);
      return [path, names, findings.map(({ code }) => code)];
    }),
  ).toEqual([
    ['outlines/bassoons.yaml', ['sustain', 'staccato', 'marcato', 'flutter', 'runs'], []],
    [
      'outlines/solo-cello.yaml',
      ['sustain', 'legato', 'spiccato', 'pizzicato', 'tremolo'],
      ['outline-open'],
    ],
  ]);
});
