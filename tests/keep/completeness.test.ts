import { readFile } from 'node:fs/promises';
import { beforeAll, describe, expect, test } from 'vitest';
import { demoFiles } from '../../src/demo/demo.ts';
import { partialCues, type ComparedCue } from '../../src/keep/completeness.ts';
import { planCues } from '../../src/keep/plan-cues.ts';
import type { PlanCue } from '../../src/keep/plan.ts';
import { parseCueName } from '../../src/midi/cue-name.ts';
import { partsOf } from '../../src/midi/parts.ts';
import { readMidi } from '../../src/midi/read-midi.ts';
import { asExported } from '../../src/playback/play-copy.ts';
import { playCue } from '../../src/playback/play-cue.ts';
import { all, cueCount, realCues } from '../prove/material.ts';

const cue = (id: string, rest: Partial<ComparedCue> = {}): ComparedCue => ({
  id,
  version: / v\d+$/.test(id) ? Number(id.replace(/.* v/, '')) : null,
  files: [{ path: `cues/${id}.mid`, sha256: id }],
  notes: 100,
  music: 60,
  lastMarker: null,
  state: 'read',
  tracks: { played: ['Vln 1', 'Vc'], silent: [] },
  ...rest,
});

const tracks = (played: readonly string[], silent: readonly string[] = []) => ({
  tracks: { played, silent },
});

const found = (
  cues: readonly ComparedCue[],
  context: readonly ComparedCue[] = [],
  accepted: readonly string[] = [],
) =>
  partialCues(cues, context, accepted).map(({ args }) => {
    const { cue: id, reason, tracks: names } = args as unknown as Record<string, unknown>;
    return [id, reason, ...(names as readonly string[])];
  });

describe('a track that the older version plays', () => {
  test('is missed in the newer by name, and in that alone', () => {
    const cues = [
      cue('1m2 v3', tracks(['Vln 1', 'Hn', 'Vc'], ['Tuba'])),
      cue('1m2 v4', tracks(['Vln 1'], ['Vc'])),
      cue('1m3', tracks(['Vln 1'])),
    ];
    // Silent tracks may go, and one that is silent now is there.
    expect(found(cues)).toEqual([['1m2 v4', 'tracks-of-version', 'Hn']]);
    const [finding] = partialCues(cues, [], []);
    expect(finding).toMatchObject({
      severity: 'warning',
      file: 'cues/1m2 v4.mid',
      args: { version: '1m2 v3', missing: 1, seconds: null },
    });
  });

  test('the next lower version is the one to compare with; none is the lowest', () => {
    const cues = [
      cue('1m2 v10', tracks(['Vln 1'])),
      cue('1m2', tracks(['Tuba'])),
      cue('1m2 v9', tracks(['Hn'])),
      cue('1m2A v3', tracks(['Harp'])),
    ];
    expect(found(cues)).toEqual([
      ['1m2 v10', 'tracks-of-version', 'Hn'],
      ['1m2 v9', 'tracks-of-version', 'Tuba'],
    ]);
  });

  test('names are compared as everywhere, whatever their case and dashes', () => {
    const cues = [cue('1m2 v1', tracks(['Hn – a2'])), cue('1m2 v2', tracks(['hn - A2']))];
    expect(found(cues)).toEqual([]);
  });

  test('may stand in the keep file, under the same id too', () => {
    const now = cue('1m2 v4', { ...tracks(['Vln 1']), files: [{ path: 'a', sha256: 'new' }] });
    expect(found([now], [cue('1m2 v4'), cue('1m2 v3', tracks(['Hn']))])).toEqual([
      ['1m2 v4', 'tracks-of-version', 'Vc'],
    ]);
    expect(found([now], [cue('1m2 v3', tracks(['Hn']))])).toEqual([
      ['1m2 v4', 'tracks-of-version', 'Hn'],
    ]);
    // What is checked is what was planned.
    expect(found([cue('1m2 v4')], [cue('1m2 v4')])).toEqual([]);
    // Nothing is told of the keep file's own cues.
    expect(found([cue('1m2 v3')], [cue('1m2 v4', tracks([]))])).toEqual([]);
  });

  test('many are counted, and the first are named', () => {
    const names = Array.from({ length: 12 }, (_, i) => `Perc ${String(i)}`);
    const [finding] = partialCues([cue('1m2 v1', tracks(names)), cue('1m2 v2')], [], []);
    expect(finding?.args).toMatchObject({ tracks: names.slice(0, 5), missing: 12 });
  });
});

describe('a track that every other cue has', () => {
  // The tuba is in both exports, and plays in one of them.
  const others = [
    cue('1m1', tracks(['Vln 1', 'Hn'], ['Tuba'])),
    cue('1m2', tracks(['Hn', 'Vln 1', 'Tuba'])),
  ];

  test('is missed where exports hold tracks that do not play there', () => {
    expect(found([...others, cue('1m3', tracks(['Vln 1', 'Tuba']))])).toEqual([
      ['1m3', 'tracks-of-reel', 'Hn'],
    ]);
  });

  test('is not where no export does: tempo and click are silent everywhere', () => {
    const played = others.map(({ tracks: { played: names }, ...one }) => ({
      ...one,
      ...tracks(names, ['Tempo', 'Click']),
    }));
    expect(found([...played, cue('1m3', tracks(['Vln 1'], ['Tempo', 'Click']))])).toEqual([]);
  });

  test("the cue's own silent tracks say nothing of what it lacks, but of what others do", () => {
    const played = others.map((one) => ({ ...one, ...tracks(one.tracks.played) }));
    expect(found([...played, cue('1m3', tracks(['Vln 1'], ['Tuba']))])).toEqual([
      ['1m1', 'tracks-of-reel', 'Tuba'],
    ]);
  });

  test('two others are needed, and versions of one cue are one', () => {
    expect(found([others[0]!, cue('1m3', tracks(['Vln 1']))])).toEqual([]);
    const versions = [
      cue('1m1 v1', tracks(['Vln 1', 'Hn'], ['Tuba'])),
      cue('1m1 v2', tracks(['Vln 1', 'Hn', 'Tuba'])),
    ];
    expect(found([...versions, cue('1m3', tracks(['Vln 1']))])).toEqual([]);
  });

  test('the keep file counts as the rest of the reel', () => {
    expect(found([cue('1m3', tracks(['Vln 1']))], others)).toEqual([
      ['1m3', 'tracks-of-reel', 'Hn', 'Tuba'],
    ]);
  });

  test('what an older version plays is told once', () => {
    const cues = [
      ...others,
      cue('1m3 v1', tracks(['Hn', 'Vln 1', 'Tuba'])),
      cue('1m3 v2', tracks(['Vln 1', 'Tuba'])),
    ];
    expect(found(cues)).toEqual([['1m3 v2', 'tracks-of-version', 'Hn']]);
  });
});

describe('music that ends before the last marker', () => {
  // More than 8 s, and more than a tenth of the marker's time (common practice).
  test.each([
    [60, 68, false],
    [60, 68.1, true],
    [180, 200, false],
    [179.9, 200, true],
    [60, null, false],
    [60, 20, false],
  ])('music to %f s, marker at %s s: %s', (music, lastMarker, isPartial) => {
    const told = found([cue('1m1', { music, lastMarker })]);
    expect(told).toEqual(isPartial ? [['1m1', 'markers']] : []);
  });

  test('a cue without notes has a finding of its own', () => {
    expect(found([cue('1m1', { notes: 0, music: 0, lastMarker: 60 })])).toEqual([]);
  });
});

test('nothing is told of what is accepted, nor of what could not be read whole', () => {
  const early = { music: 10, lastMarker: 60 };
  const cues = [
    cue('1m1', early),
    cue('1m2', { ...early, state: 'damaged' }),
    cue('1m3', { ...early, state: 'unreadable' }),
    cue('1m4', early),
  ];
  expect(found(cues, [], ['1m4', '9m9'])).toEqual([['1m1', 'markers']]);
});

const planned = (files: readonly (readonly [string, Uint8Array])[]): readonly PlanCue[] =>
  planCues(
    files.map(([path, bytes]) => {
      const score = readMidi(bytes, path);
      const { id, version } = parseCueName(path);
      const file = { cue: id, path, sha256: path, version, file: 0 };
      const nothing = { copies: [], tainted: [] };
      return playCue(file, score, partsOf(score), nothing, new Map(), asExported);
    }),
  );

describe('no false alarm', () => {
  let demo: readonly (readonly [string, Uint8Array])[];
  beforeAll(() => {
    demo = demoFiles()
      .filter(({ path }) => path.endsWith('.mid'))
      .map(({ path, bytes }) => [path, bytes] as const);
  }, 120_000);

  test("in the demo's cues and in its revision", () => {
    const cues = planned(demo.filter(([path]) => path.startsWith('cues/')));
    const revision = planned(demo.filter(([path]) => path.startsWith('revisions/')));
    expect([cues.length, revision.length]).toEqual([9, 1]);
    expect(partialCues(cues, [], [])).toEqual([]);
    expect(partialCues(revision, cues, [])).toEqual([]);
  });

  test.skipIf(!all('cues'))('in real cues', async () => {
    const paths = await realCues();
    const cues = planned(
      await Promise.all(paths.map(async (path) => [path, await readFile(path)] as const)),
    );
    expect(cues).toHaveLength(cueCount);
    expect(partialCues(cues, [], [])).toEqual([]);
  });
});
