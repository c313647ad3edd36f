import { describe, expect, test } from 'vitest';
import type { Division, EventColumns, Score, Track } from '../../src/midi/score.ts';
import { countNotes } from '../../src/playback/count-notes.ts';
import { likelySwitches, shortNoteTicks } from '../../src/playback/likely-switches.ts';
import type { PartNotes } from '../../src/playback/note-usage.ts';

type Event = readonly [tick: number, status: number, data1: number, data2?: number];

const columns = (events: readonly Event[]): EventColumns => ({
  length: events.length,
  tick: Float64Array.from(events, ([tick]) => tick),
  status: Uint8Array.from(events, ([, status]) => status),
  data1: Uint8Array.from(events, ([, , data1]) => data1),
  data2: Uint8Array.from(events, ([, , , data2]) => data2 ?? 0),
});

const on = (tick: number, key: number, velocity = 64, channel = 0): Event => [
  tick,
  0x90 + channel,
  key,
  velocity,
];
const off = (tick: number, key: number, channel = 0): Event => [tick, 0x80 + channel, key, 64];
const control = (tick: number, number: number, value: number, channel = 0): Event => [
  tick,
  0xb0 + channel,
  number,
  value,
];
const program = (tick: number, number: number, channel = 0): Event => [
  tick,
  0xc0 + channel,
  number,
];

const track = (index: number, events: readonly Event[], rest: Partial<Track> = {}): Track => ({
  index,
  name: null,
  instrumentName: null,
  deviceName: null,
  timeline: 0,
  events: columns(events),
  sysex: [],
  ports: [{ from: 0, port: 0 }],
  end: events.at(-1)?.[0] ?? 0,
  damage: null,
  ...rest,
});

const quarter = 480;

const score = (
  tracks: readonly Track[],
  division: Division = { kind: 'metrical', ticksPerQuarter: quarter },
): Score => ({
  format: 1,
  timelines: [
    {
      division,
      tempo: [{ tick: 0, microsecondsPerQuarter: 500_000 }],
      meter: [{ tick: 0, beats: 4, unit: 4 }],
      markers: [],
      smpteOffset: null,
      timecode: null,
    },
  ],
  tracks,
  missingTracks: 0,
  findings: [],
});

const parts = (...tracks: readonly (readonly Event[])[]): readonly PartNotes[] =>
  countNotes(score(tracks.map((events, index) => track(index, events))));

const only = (events: readonly Event[]): PartNotes => {
  const [part, ...others] = parts(events);
  expect(others).toEqual([]);
  if (part === undefined) throw new Error('no part');
  return part;
};

test('a part with all that it has', () => {
  const found = countNotes(
    score([
      track(
        3,
        [
          control(0, 1, 20),
          program(0, 48),
          on(0, 60, 30),
          on(480, 62, 101),
          control(480, 1, 96),
          off(960, 60),
          off(960, 62),
        ],
        { name: 'Vln 1 leg' },
      ),
    ]),
    2,
  );
  expect(found).toEqual([
    {
      file: 2,
      track: 3,
      trackName: 'Vln 1 leg',
      port: 1,
      channel: 1,
      notes: 2,
      keys: [
        [60, 60],
        [62, 62],
      ],
      velocities: [30, 101],
      controllers: [{ number: 1, events: 2, range: [20, 96] }],
      programs: [{ bankMsb: 0, bankLsb: 0, program: 48 }],
      likelySwitches: [],
    },
  ]);
});

// MIDI 1.0 Detailed Specification, "Note-On": velocity 0 is a note-off.
test('velocity 0 is a note-off: no note, no key and no velocity', () => {
  expect(only([on(0, 60, 50), on(480, 60, 0), on(480, 70, 0)])).toMatchObject({
    notes: 1,
    keys: [[60, 60]],
    velocities: [50, 50],
  });
});

test('a track without events is no part, one with controllers only is a part without notes', () => {
  expect(parts([], [control(0, 7, 0)])).toMatchObject([
    { track: 1, notes: 0, keys: [], velocities: null, controllers: [{ number: 7, range: [0, 0] }] },
  ]);
});

test('track, port and channel make the part, ports and channels from 1', () => {
  const events = [on(0, 60), on(0, 61, 64, 9), on(480, 62)];
  const found = countNotes(
    score([
      track(0, events, {
        ports: [
          { from: 0, port: 0 },
          { from: 2, port: 5 },
        ],
      }),
      track(1, [on(0, 63)]),
    ]),
  );
  expect(found.map(({ track: at, port, channel, keys }) => ({ at, port, channel, keys }))).toEqual([
    { at: 0, port: 1, channel: 1, keys: [[60, 60]] },
    { at: 0, port: 1, channel: 10, keys: [[61, 61]] },
    { at: 0, port: 6, channel: 1, keys: [[62, 62]] },
    { at: 1, port: 1, channel: 1, keys: [[63, 63]] },
  ]);
});

test('lowest and highest values, at both ends of their range', () => {
  const found = only([
    control(0, 11, 127),
    control(10, 11, 0),
    control(20, 127, 5),
    on(30, 0, 1),
    on(40, 127, 127),
  ]);
  expect(found.controllers).toEqual([
    { number: 11, events: 2, range: [0, 127] },
    { number: 127, events: 1, range: [5, 5] },
  ]);
  expect(found.keys).toEqual([
    [0, 0],
    [127, 127],
  ]);
  expect(found.velocities).toEqual([1, 127]);
});

// MIDI 1.0 Detailed Specification, "Bank Select": it takes effect at the next program change.
describe('programs', () => {
  test('carry the bank select in effect when they come, in order, without repeats', () => {
    const found = only([
      program(0, 5),
      control(10, 0, 8),
      control(10, 32, 2),
      program(20, 5),
      control(30, 0, 0),
      control(30, 32, 0),
      program(40, 5),
      control(50, 0, 1),
    ]);
    expect(found.programs).toEqual([
      { bankMsb: 0, bankLsb: 0, program: 5 },
      { bankMsb: 8, bankLsb: 2, program: 5 },
    ]);
  });

  test('keep their banks apart by part', () => {
    const found = parts([control(0, 0, 8), program(10, 1), program(10, 2, 1)], [program(20, 3)]);
    expect(found.map(({ programs }) => programs)).toEqual([
      [{ bankMsb: 8, bankLsb: 0, program: 1 }],
      [{ bankMsb: 0, bankLsb: 0, program: 2 }],
      [{ bankMsb: 0, bankLsb: 0, program: 3 }],
    ]);
  });
});

// The rule is that of likely-switches.ts (common practice).
describe('likely switches', () => {
  /** A melody on two keys, long notes; what is tested stands beside it. */
  const melody = [0, 1, 2, 3, 4, 5].flatMap((i) => {
    const key = 60 + (i % 2);
    return [on(i * quarter, key), off((i + 1) * quarter, key)];
  });
  const tap = (key: number, length: number, from = 0): readonly Event[] => [
    on(from, key),
    off(from + length, key),
  ];
  const with_ = (...events: readonly Event[]): readonly number[] =>
    only([...melody, ...events].sort((a, b) => a[0] - b[0])).likelySwitches;

  test('short notes an octave below or above the rest', () => {
    expect(with_(...tap(24, 60), ...tap(26, 60))).toEqual([24, 26]);
    expect(with_(...tap(96, 60))).toEqual([96]);
    expect(with_(...tap(24, 60), ...tap(96, 60))).toEqual([24, 96]);
  });

  test('none on the percussion channel, where the same notes are drums', () => {
    const drums = (channel: number): readonly number[] =>
      only(
        [
          on(0, 36, 64, channel),
          off(60, 36, channel),
          on(480, 36, 64, channel),
          off(540, 36, channel),
          on(960, 36, 64, channel),
          off(1020, 36, channel),
          on(960, 49, 64, channel),
          off(1020, 49, channel),
        ].sort((a, b) => a[0] - b[0]),
      ).likelySwitches;
    expect(drums(8)).toEqual([49]);
    expect(drums(9)).toEqual([]);
  });

  test.each([
    [48, [48]],
    [49, []],
    [73, [73]],
    [72, []],
  ])('key %d beside keys 60 and 61', (key, expected) => {
    expect(with_(...tap(key, 60))).toEqual(expected);
  });

  test.each([
    [quarter / 2 - 1, [24]],
    [quarter / 2, []],
  ])('a note of %d ticks, where a quarter is 480', (length, expected) => {
    expect(with_(...tap(24, length))).toEqual(expected);
  });

  test('one long note is enough for its key not to be one, and for its group', () => {
    expect(with_(...tap(24, 60), ...tap(24, quarter, quarter), ...tap(26, 60))).toEqual([]);
  });

  test('a key that is never released is long', () => {
    expect(with_(on(0, 24))).toEqual([]);
  });

  test('a key struck again while it is held is one long note', () => {
    expect(with_(on(0, 24), on(200, 24), off(300, 24))).toEqual([]);
    expect(with_(on(0, 24), off(100, 24), on(200, 24), off(300, 24))).toEqual([24]);
  });

  test('a part that plays nothing else has none', () => {
    expect(only([...tap(24, 60), ...tap(26, 60)]).likelySwitches).toEqual([]);
  });

  test('what is played as often as the rest is music', () => {
    const counts = new Uint32Array(128);
    counts[60] = 10;
    counts[24] = 9;
    expect(likelySwitches(counts, () => true)).toEqual([24]);
    counts[24] = 10;
    expect(likelySwitches(counts, (key) => key === 24)).toEqual([]);
  });

  test('many keys, or keys far apart, are music', () => {
    const among = (keys: readonly number[]): readonly number[] => {
      const counts = new Uint32Array(128);
      for (const key of keys) counts[key] = 1;
      counts[90] = 1_000;
      return likelySwitches(counts, () => true);
    };
    const twelve = Array.from({ length: 12 }, (_, i) => i);
    expect(among(twelve)).toEqual(twelve);
    expect(among([...twelve, 12])).toEqual([]);
    expect(among([0, 11, 22, 24])).toEqual([0, 11, 22, 24]);
    expect(among([0, 11, 22, 25])).toEqual([]);
  });

  test('where the file counts frames a note is short under 0.15 seconds', () => {
    // 25 frames of 40 ticks are a second: 1000 ticks (SMF 1.0, "Header Chunks", E7 28).
    expect(shortNoteTicks({ kind: 'smpte', framesPerSecond: 25, ticksPerFrame: 40 })).toBe(150);
    expect(shortNoteTicks({ kind: 'metrical', ticksPerQuarter: 960 })).toBe(480);
  });
});
