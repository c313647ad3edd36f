import { expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { page } from '../../src/jobs/report-page.ts';
import { plan } from '../../src/jobs/plan.ts';
import { report } from '../../src/jobs/report.ts';
import { toJson } from '../../src/report/json.ts';
import { withMessages } from '../../src/report/messages.ts';
import { distinctNotes, type AskedNotes } from '../../src/keep/check/distinct-notes.ts';
import { smallRig } from './small-rig.ts';

const text = (html: string): string =>
  html
    .replace(/<script.*?<\/script>/gs, '')
    .replace(/<[^>]*>/g, '')
    .replaceAll('&gt;', '>')
    .replaceAll('\u00a0', ' ');

test('of a plan that plan -o would not write there is no digest, and the page says why', async () => {
  const files = new MemoryFiles({
    ...smallRig,
    'cues/1m3.mid': new TextEncoder().encode('no cue'),
  });
  const overview = await report({ files });
  expect(overview.keep).toEqual({
    ...{ path: null, sha256: null },
    refused: { why: 'unreadable', cues: ['1m3'] },
  });
  const html = await page(overview);
  expect(html).toContain('content:"no keep file');
  expect(text(html)).toContain('no keep file can be written of this plan: 1m3 could not be read');
  const written = await report({ files: new MemoryFiles(smallRig) });
  expect(written.keep.sha256).toMatch(/^[0-9a-f]{64}$/);
  expect(written.keep.refused).toBeNull();
});

test('a machine that does not fit is in the headline, with what would make room', async () => {
  const template = String(smallRig['keepset.yaml']).replace('memory: 40 MB', 'memory: 6 MB');
  const overview = await report({
    files: new MemoryFiles({ ...smallRig, 'keepset.yaml': template }),
  });
  const [a, b] = overview.machines;
  expect([a!.fits, b!.fits]).toEqual([false, true]);
  expect(a!.largest.map(({ instrument }) => instrument)).toContain('horns');
  expect(a!.ways.length).toBeGreaterThan(0);
  expect([b!.largest, b!.ways]).toEqual([[], []]);
  const codes = overview.findings.map(({ code }) => code);
  // One cue alone is too much: groups would be no advice.
  const tooMuch = ['machine-over-budget', 'memory-over-budget', 'memory-cue-alone'];
  expect(codes.filter((code) => tooMuch.includes(code))).toEqual(['memory-cue-alone']);
  const said = text(await page(overview));
  expect(said).toMatch(/Machine a does not fit: [\d.]+ MiB needed, 3\.81 MiB there\./);
  expect(said).toContain('What would make room on machine a');
  expect(said).not.toContain('What would make room on machine b');
});

test('what is missing has its ways out, and beats are told as whole ones', async () => {
  const files = { ...smallRig };
  const keep = toJson(withMessages(await plan({ files: new MemoryFiles(files) })));
  const overview = await report({
    ...{ keep: 'keep.json', cues: ['later'] },
    files: new MemoryFiles({ ...files, 'keep.json': keep }),
  });
  const loud = overview.proof.misses.find(({ articulations }) =>
    articulations.includes('sustain'),
  )!;
  // Written by hand: 120 where the plan has nothing above 95.
  expect(loud.ways[0]).toMatchObject({
    kind: 'velocity',
    changes: [{ key: 55, from: 120, to: 95 }],
  });
  const { places, ...rest } = loud;
  const late = { ...rest, places: places.map((place) => ({ ...place, beat: 1.041 })) };
  const said = text(await page({ ...overview, proof: { ...overview.proof, misses: [late] } }));
  expect(said).toContain('Load it again, ');
  expect(said).toContain('Lower velocity 120 to 95 at G3 (55), 1 note');
  expect(said).toMatch(/Print as audio: .*, Horns 1: bar \d+/);
  expect(said).toMatch(/bar \d+ beat 1, Horns 1 \(\d+:\d\d/);
  expect(said).not.toContain('1.041');
});

const asked = (change: Partial<AskedNotes>): AskedNotes => ({
  ...{ notes: 9, cues: { '1m1': 9 }, keys: [[48, 50]], velocities: [1, 60], copy: null },
  ...change,
});

// By hand: a note has one cue, copy, key and velocity, so that what has none in common counts apart.
test.each<[string, Partial<AskedNotes>, number, boolean]>([
  ['the same room', {}, 18, true],
  ['other keys', { keys: [[51, 52]] }, 18, false],
  ['other velocities', { velocities: [61, 90] }, 18, false],
  ['another cue', { cues: { '1m2': 9 } }, 18, false],
  ['another copy', { copy: 'Hn 2' }, 18, false],
  ['none', { notes: 0 }, 9, false],
  ['by a controller', { keys: [], velocities: null }, 18, true],
])('notes of two misses, %s', (_, other, notes, atMost) => {
  expect(distinctNotes([asked({}), asked(other)], 99)).toEqual({ notes, atMost });
});

test('no more notes than there are', () => {
  expect(distinctNotes([asked({}), asked({}), asked({})], 10)).toEqual({ notes: 10, atMost: true });
  expect(distinctNotes([asked({}), asked({})], 9)).toEqual({ notes: 9, atMost: false });
});
