import { describe, expect, test } from 'vitest';
import type { OverviewArticulation } from '../../src/overview/overview-instrument.ts';
import type { Overview } from '../../src/overview/overview.ts';
import { missingOverview, overview } from '../report/fixtures/overview.ts';

/**
 * The small rig, worked out by hand from its tables and cues (`small-rig.ts`; C3-B4 is 48-71). Horns
 * let go by the layer. Played: sustain 50 at 40 and 70, 62 at 90, 55 at 80; staccato 55 at 60, 67 at
 * 110. So of sustain the soft and the middle layer stay, both of staccato, nothing of muted.
 */
const horns = overview.instruments[0]!;

const named = (name: string): OverviewArticulation =>
  horns.articulations.find((one) => one.name === name)!;

/** States of the cells of each row, loudest first. */
const cellsOf = ({ rows }: OverviewArticulation) =>
  rows.map(({ velocity, cells }) => [velocity, cells.map(([lo, hi, state]) => [lo, hi, state])]);

describe('horns', () => {
  test('sustain may be written up to velocity 95', () => {
    expect(named('sustain').playable).toEqual({
      state: 'part',
      all: [[48, 71]],
      stretches: [
        {
          keys: [[48, 71]],
          dynamics: [{ by: 'velocity', safe: [[1, 95]], all: [1, 127] }],
          together: [],
          dependsOn: [],
          releasesGone: false,
        },
      ],
    });
  });

  test('staccato may be written as it was', () => {
    expect(named('staccato').playable).toEqual({
      state: 'whole',
      all: [[48, 71]],
      stretches: [
        {
          keys: [[48, 71]],
          dynamics: [{ by: 'velocity', safe: [[1, 127]], all: [1, 127] }],
          together: [],
          dependsOn: [],
          releasesGone: false,
        },
      ],
    });
  });

  test('muted is gone', () => {
    expect(named('muted').playable).toEqual({ state: 'gone', all: [[48, 71]], stretches: [] });
  });

  test('the upper half of the soft layer stays only for its layer', () => {
    // States: 0 kept, 1 doubtful, 2 spare, 3 dropped.
    expect(cellsOf(named('sustain'))).toEqual([
      [[96, 127], [[48, 71, 3]]],
      [[48, 95], [[48, 71, 0]]],
      [
        [1, 47],
        [
          [48, 59, 0],
          [60, 71, 2],
        ],
      ],
    ]);
  });

  test('the middle layer is proved by its first three notes, in the order of the reel', () => {
    // 1m1, at 480 ticks a beat and four beats a bar: tick 960 is bar 1 beat 3, tick 1920 bar 2 beat 1;
    // 1m2: tick 3840 is bar 3 beat 1.
    const [, , , , , , first, count] = named('sustain').rows[1]!.cells[0]!;
    const track = overview.tracks.indexOf('Horns 1');
    expect(horns.witnesses.slice(first, first + count)).toEqual([
      [0, track, 1, 3, 62, 90],
      [0, track, 2, 1, 50, 70],
      [1, track, 3, 1, 55, 80],
    ]);
  });
});

test('strings: the lower half below the loud layer, with the pinned trill whole', () => {
  const [sustain, trill] = overview.instruments[1]!.articulations;
  expect(sustain!.playable).toEqual({
    state: 'part',
    all: [[48, 71]],
    stretches: [
      {
        keys: [[48, 59]],
        dynamics: [{ by: 1, safe: [[0, 55]], all: [0, 127] }],
        together: [],
        dependsOn: [],
        releasesGone: false,
      },
    ],
  });
  expect(trill!.playable).toEqual({
    state: 'whole',
    all: [[60, 71]],
    stretches: [
      { keys: [[60, 71]], dynamics: [], together: [], dependsOn: [], releasesGone: false },
    ],
  });
  // Each zone 200 beside its sample: close 2 x 700 000, 2 x 900 000, 600 000, of which one of the
  // first and the last stay; hall 2 x 700 000, of which one stays.
  expect(overview.instruments[1]!.microphones).toEqual([
    {
      ...{ name: 'close', zones: 5, zonesKept: 2, bytesAtMost: false },
      bytes: { full: 3_801_000, kept: 1_300_400 },
    },
    {
      ...{ name: 'hall', zones: 2, zonesKept: 1, bytesAtMost: false },
      bytes: { full: 1_400_400, kept: 700_200 },
    },
  ]);
});

test('flute: what 1m2 plays before its first switch is doubtful in both articulations', () => {
  const [long, short] = overview.instruments[2]!.articulations;
  for (const one of [long!, short!]) {
    expect(cellsOf(one)).toEqual([
      [
        [1, 127],
        [
          [60, 65, 0],
          [66, 71, 1],
        ],
      ],
    ]);
  }
  expect(overview.doubtsAt).toEqual([
    { name: 'start-state', instruments: [2], accepted: [], plain: [] },
  ]);
});

test('timpani are audio already', () => {
  expect(overview.printed.tracks).toEqual([{ cue: '1m1', track: 'Timpani print' }]);
  expect(overview.instruments[3]!.articulations[0]!.playable.state).toBe('gone');
});

test('notes that no articulation counts: switches, and one flute in doubt', () => {
  // Horns: a switch in each of their three tracks. Flute: two, and the note before the second.
  expect(overview.instruments.map(({ notes, otherNotes }) => [notes, otherNotes])).toEqual([
    [9, { choosing: 3, doubtful: 0, nothing: 0 }],
    [2, { choosing: 1, doubtful: 0, nothing: 0 }],
    [6, { choosing: 2, doubtful: 1, nothing: 0 }],
    [0, { choosing: 0, doubtful: 0, nothing: 0 }],
  ]);
});

test('both machines fit as they are', () => {
  expect(overview.machines.map(({ fitsNow, fitsAfter }) => [fitsNow, fitsAfter])).toEqual([
    [true, null],
    [true, null],
  ]);
});

test('the steps that free most: ff sustain, muted, strings, timpani', () => {
  // Horns share their samples over the machine: two zones of 4 000 000 and one of 5 000 000, each zone
  // 500 more for each of two copies. Strings: 900 000 twice, 700 000 twice, four zones of 200. Timpani:
  // 2 400 000, two zones of 200, a copy of 40 000.
  expect(overview.actions.map(({ instrument, frees }) => [instrument, frees])).toEqual([
    [0, 8_002_000],
    [0, 5_001_000],
    [1, 3_200_800],
    [3, 2_440_400],
  ]);
});

test('the later 1m2 asks for the loud horns in bar 3 and for muted ones in bar 5', () => {
  const { verdict, of, absent, misses } = missingOverview.proof;
  expect([verdict, of, absent]).toEqual(['missing', 'named', ['1m1']]);
  expect(
    misses.map(({ articulations, keys, velocities, places, bytes, fits }) => [
      ...[articulations, keys, velocities, places.map(({ bar, beat }) => [bar, beat]), bytes, fits],
    ]),
  ).toEqual([
    [['sustain'], [[55, 55]], [120, 120], [[3, 1]], 8_002_000, true],
    [['muted'], [[64, 64]], [80, 80], [[5, 1]], 5_001_000, true],
  ]);
});

test('nothing of the figures of the plan changes with the cues that are named', () => {
  const { machines, instruments, cues, total } = overview;
  expect(missingOverview).toMatchObject({ machines, instruments, cues, total });
  // Only which steps unload what is asked for is another matter.
  const steps = ({ worklist }: Overview) =>
    worklist.map((list) => ({
      ...list,
      actions: list.actions.map((step) => ({ ...step, missed: null })),
    }));
  expect(steps(missingOverview)).toEqual(steps(overview));
});
