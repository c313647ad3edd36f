import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cueRests } from '../../src/keep/reel/cue-rests.ts';
import type { Timeline } from '../../src/midi/score.ts';
import type { CueFileSounds, InstrumentSounds } from '../../src/playback/cue-sounds.ts';

/** 120 a minute in 4/4: a bar is two seconds. All figures below are worked out by hand from that. */
const timeline: Timeline = {
  division: { kind: 'metrical', ticksPerQuarter: 480 },
  tempo: [{ tick: 0, microsecondsPerQuarter: 500_000 }],
  meter: [{ tick: 0, beats: 4, unit: 4 }],
  markers: [],
  smpteOffset: null,
  timecode: null,
};

const timecode = { rate: 25, hours: 1, minutes: 0, seconds: 0, frames: 0, hundredths: 0 } as const;

type Pair = readonly [from: number, to: number];

const sounds = (id: string, notes: number, ...pairs: readonly Pair[]): InstrumentSounds => ({
  id,
  notes,
  spans: pairs.map(([from, to]) => ({ from, to })),
});

const file = (
  seconds: number,
  instruments: readonly InstrumentSounds[],
  over: Partial<CueFileSounds> = {},
): CueFileSounds => ({ timeline, stretches: null, seconds, instruments, ...over });

const rests = (files: readonly CueFileSounds[], id = 'horns') =>
  cueRests(files)
    .instruments.find((one) => one.id === id)!
    .rests.map(({ at, from, to, seconds }) => [at, from.seconds, to.seconds, seconds]);

describe('rests of a cue', () => {
  test('its beginning, its end, and when an instrument plays', () => {
    const made = cueRests([file(60, [sounds('horns', 7, [4, 10.25], [13, 20])])]);
    expect(made.start).toEqual({ bar: 1, beat: 1, seconds: 0, timecode: null });
    expect(made.end).toEqual({ bar: 31, beat: 1, seconds: 60, timecode: null });
    expect(made.instruments).toEqual([
      {
        id: 'horns',
        notes: 7,
        first: { bar: 3, beat: 1, seconds: 4, timecode: null },
        last: { bar: 11, beat: 1, seconds: 20, timecode: null },
        rests: [
          { at: 'after', from: made.instruments[0]!.last, to: made.end, seconds: 40 },
          { at: 'before', from: made.start, to: made.instruments[0]!.first, seconds: 4 },
          {
            at: 'between',
            from: { bar: 6, beat: 1.5, seconds: 10.25, timecode: null },
            to: { bar: 7, beat: 3, seconds: 13, timecode: null },
            seconds: 2.75,
          },
        ],
      },
    ]);
  });

  test('the three longest of two seconds or more; of equals the first comes first', () => {
    const spans: readonly Pair[] = [
      [1.999, 3],
      [5, 6],
      [9, 10],
      [13, 14],
      [20, 21],
    ];
    expect(rests([file(22.5, [sounds('horns', 5, ...spans)])])).toEqual([
      ['between', 14, 20, 6],
      ['between', 6, 9, 3],
      ['between', 10, 13, 3],
    ]);
    expect(rests([file(7.5, [sounds('horns', 1, [1.999, 3], [5, 6])])])).toEqual([
      ['between', 3, 5, 2],
    ]);
  });

  test('what sounds to the end of the cue, or beyond it, rests no more', () => {
    const made = [file(20, [sounds('horns', 1, [5, Infinity]), sounds('harp', 1, [5, 25])])];
    expect(rests(made)).toEqual([['before', 0, 5, 5]]);
    expect(rests(made, 'harp')).toEqual([['before', 0, 5, 5]]);
    expect(cueRests(made).instruments.map(({ last }) => last.seconds)).toEqual([20, 20]);
  });

  test('files of one cue begin together; the longest one ends it', () => {
    const made = [
      file(10, [sounds('horns', 2, [0, 3])]),
      file(30, [sounds('horns', 3, [2, 4], [8, 9]), sounds('harp', 1, [0, 1])]),
    ];
    expect(rests(made)).toEqual([
      ['after', 9, 30, 21],
      ['between', 4, 8, 4],
    ]);
    const { instruments, end } = cueRests(made);
    expect(instruments.map(({ id, notes }) => [id, notes])).toEqual([
      ['horns', 5],
      ['harp', 1],
    ]);
    expect(end.bar).toBe(16);
  });

  test('the file that gives a time code names the moments', () => {
    const made = cueRests([
      file(10, [sounds('horns', 1, [4, 6])]),
      file(10, [], { timeline: { ...timeline, timecode } }),
    ]);
    expect(made.instruments[0]!.first.timecode).toBe('01:00:04:00');
    expect(made.end.timecode).toBe('01:00:10:00');
  });

  test('a part of a file has the bars of the file; what lies between its stretches does not count', () => {
    // Seconds 10 to 14 and 20 to 30 of the file: 14 seconds.
    const stretches = [
      { from: 9_600, to: 13_440 },
      { from: 19_200, to: 28_800 },
    ];
    const spans: readonly Pair[] = [
      [1, 1.5],
      [4, 5],
      [12, 13],
    ];
    const made = cueRests([file(14, [sounds('horns', 3, ...spans)], { stretches })]);
    expect([made.start, made.end].map(({ bar, seconds }) => [bar, seconds])).toEqual([
      [6, 10],
      [16, 30],
    ]);
    expect(made.instruments[0]!.first).toMatchObject({ bar: 6, beat: 3, seconds: 11 });
    expect(rests([file(14, [sounds('horns', 3, ...spans)], { stretches })])).toEqual([
      ['between', 21, 28, 7],
      ['between', 11.5, 20, 2.5],
    ]);
  });

  test('nothing could be read', () => {
    const made = cueRests([file(0, [sounds('horns', 0, [0, Infinity])], { timeline: null })]);
    const nowhere = { bar: 1, beat: 1, seconds: 0, timecode: null };
    expect(made).toEqual({
      start: nowhere,
      end: nowhere,
      instruments: [{ id: 'horns', notes: 0, first: nowhere, last: nowhere, rests: [] }],
    });
  });

  test('rests never touch a sound, and no longer one is left out', () => {
    const pair = fc
      .tuple(fc.nat(400), fc.nat(60))
      .map(([from, long]): Pair => [from / 4, (from + long) / 4]);
    fc.assert(
      fc.property(fc.array(pair, { minLength: 1, maxLength: 12 }), (pairs) => {
        const found = rests([file(100, [sounds('horns', 1, ...pairs)])]);
        // By quarters of a second, each looked at by itself.
        const isFree = (i: number): boolean =>
          pairs.every(([from, to]) => to <= i / 4 || from >= (i + 1) / 4) &&
          pairs.every(([from, to]) => from !== to || from <= i / 4 || from >= (i + 1) / 4);
        const borders = new Set(pairs.flat().map((at) => at * 4));
        const runs: number[] = [];
        for (let i = 0, run = 0; i < 400; i++) {
          run = isFree(i) ? (borders.has(i) ? 0 : run) + 1 : 0;
          if (run > 0 && (i === 399 || !isFree(i + 1) || borders.has(i + 1))) runs.push(run / 4);
        }
        const longest = runs
          .filter((run) => run >= 2)
          .sort((a, b) => b - a)
          .slice(0, 3);
        expect(found.map(([, , , seconds]) => seconds)).toEqual(longest);
      }),
    );
  });
});
