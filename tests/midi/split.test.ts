import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Marker, Score, Timeline } from '../../src/midi/score.ts';
import { splitAtMarkers } from '../../src/midi/split.ts';
import { cueFinder, holdsTick, secondsInto } from '../../src/midi/stretches.ts';

type Mark = readonly [tick: number, text: string];

const timeline = (marks: readonly Mark[], kind: Marker['kind'] = 'marker'): Timeline => ({
  division: { kind: 'metrical', ticksPerQuarter: 480 },
  tempo: [{ tick: 0, microsecondsPerQuarter: 500_000 }],
  meter: [{ tick: 0, beats: 4, unit: 4 }],
  markers: marks.map(([tick, text]) => ({ tick, kind, text })),
  smpteOffset: null,
  timecode: null,
});

const score = (...timelines: readonly Timeline[]): Score => ({
  format: 1,
  timelines,
  tracks: [],
  missingTracks: 0,
  findings: [],
});

const split = (marks: readonly Mark[], path = 'reels/Reel 1.mid') => {
  const cues = splitAtMarkers(score(timeline(marks)), path);
  if (typeof cues === 'string') return cues;
  return cues.map(({ name, stretches }) => [
    name.id,
    name.version,
    ...stretches.map(({ from, to }) => `${String(from)}-${to === null ? '' : String(to)}`),
  ]);
};

describe('cue numbers in markers', () => {
  test('part the file; what comes before the first belongs to it', () => {
    expect(
      split([
        [960, '1m1 Titles'],
        [4_800, '1m2 Harbour v3'],
        [9_600, 'Sc. 14 - 1m03A'],
      ]),
    ).toEqual([
      ['1m1', null, '0-4800'],
      ['1m2 v3', 3, '4800-9600'],
      ['1m03A', null, '9600-'],
    ]);
  });

  test('where one marker has a number, those without one part nothing', () => {
    expect(
      split([
        [0, 'Intro'],
        [960, '1m1'],
        [1_920, 'Door slams'],
        [4_800, '1m2'],
        [5_000, 'End'],
      ]),
    ).toEqual([
      ['1m1', null, '0-4800'],
      ['1m2', null, '4800-'],
    ]);
  });

  test('markers of one id mark one cue, side by side or apart', () => {
    expect(
      split([
        [0, '1m1'],
        [480, '1m1 again'],
        [960, '1m2'],
        [1_920, '1m1'],
      ]),
    ).toEqual([
      ['1m1', null, '0-960', '1920-'],
      ['1m2', null, '960-1920'],
    ]);
  });

  test('a slash before a number is no folder', () => {
    expect(split([[0, 'Harbour / 1m1']])).toEqual([['1m1', null, '0-']]);
  });
});

describe('markers without numbers', () => {
  test('all of them part the file; ids are the path and the text', () => {
    expect(
      split([
        [0, 'Forest'],
        [960, 'Forest v2'],
        [1_920, 'Battle'],
      ]),
    ).toEqual([
      ['reels/Reel 1/Forest', null, '0-960'],
      ['reels/Reel 1/Forest v2', 2, '960-1920'],
      ['reels/Reel 1/Battle', null, '1920-'],
    ]);
  });

  test.each([
    ['A/B\\C', 'A-B-C'],
    ['  two\n lines\u001b[2J ', 'two lines [2J'],
    ['\u202edlrow', 'dlrow'],
    ['', 'marker 1'],
    [' \t', 'marker 1'],
    ['x'.repeat(500), 'x'.repeat(120)],
    ['..', '..'],
  ])('%j is called %j', (text, safe) => {
    expect(split([[0, text]], 'r.mid')).toEqual([[`r/${safe}`, null, '0-']]);
  });
});

describe('several markers on one tick', () => {
  test('the last one counts', () => {
    expect(
      split([
        [0, '1m1'],
        [960, '1m2'],
        [960, '1m3'],
      ]),
    ).toEqual([
      ['1m1', null, '0-960'],
      ['1m3', null, '960-'],
    ]);
  });
});

describe('one cue after all', () => {
  test('without markers; cue points are none', () => {
    expect(split([])).toBe('no-markers');
    expect(splitAtMarkers(score(timeline([[0, '1m1']], 'cue-point')), 'a.mid')).toBe('no-markers');
  });

  test('where sequences have a time each', () => {
    const both = score(timeline([[0, '1m1']]), timeline([[0, '1m2']]));
    expect(splitAtMarkers(both, 'a.mid')).toBe('several-timelines');
  });

  test('with more markers than a reel has cues', () => {
    const marks = (count: number): readonly Mark[] =>
      Array.from({ length: count }, (_, i) => [i, `at ${String(i)}`]);
    expect(split(marks(1_000))).toHaveLength(1_000);
    expect(split(marks(1_001))).toBe('too-many');
    expect(split(marks(100_000))).toBe('too-many');
  });
});

const anyMarks = fc
  .array(fc.tuple(fc.nat(2_000), fc.constantFrom('1m1', '1m2', '1m3', 'Hit', '2m1 v2')), {
    minLength: 1,
    maxLength: 12,
  })
  .map((marks) => [...marks].sort(([a], [b]) => a - b));

test('every tick lies in one cue: that of the last marker that parts, or the first', () => {
  fc.assert(
    fc.property(anyMarks, fc.nat(3_000), (marks, tick) => {
      const cues = splitAtMarkers(score(timeline(marks)), 'r.mid');
      if (typeof cues === 'string') throw new Error(cues);
      const numbered = marks.filter(([, text]) => text !== 'Hit');
      const parting = numbered.length > 0 ? numbered : marks;
      // Those on the tick of the first border that are not its last mark nothing.
      const first = parting.findLast(([at]) => at === parting[0]![0])!;
      const [, text] = parting.findLast(([at]) => at <= tick) ?? first;
      const stretches = cues.map((one) => one.stretches);
      const found = cueFinder(stretches)(tick);
      expect(cues[found]!.name.id).toBe(text === 'Hit' ? 'r/Hit' : text);
      expect(stretches.filter((one) => holdsTick(one, tick))).toEqual([stretches[found]]);
    }),
  );
});

test('the cues of a file are together as long as the file, wherever one ends', () => {
  const clock = { secondsAt: (tick: number) => tick / 960 };
  fc.assert(
    fc.property(anyMarks, fc.nat(3_000), (marks, end) => {
      const cues = splitAtMarkers(score(timeline(marks)), 'r.mid');
      if (typeof cues === 'string') throw new Error(cues);
      const lengths = cues.map(({ stretches }) => secondsInto(stretches, clock, end));
      expect(lengths.reduce((sum, one) => sum + one, 0)).toBeCloseTo(end / 960, 9);
    }),
  );
});

test('a tick of no cue that counts is in none', () => {
  const cueAt = cueFinder([[{ from: 480, to: 960 }]]);
  expect([479, 480, 959, 960].map(cueAt)).toEqual([-1, 0, 0, -1]);
});
