import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import type { Division, MeterChange, TempoChange, Timeline } from '../../src/midi/score.ts';
import { clock } from '../../src/midi/timeline.ts';

const metrical: Division = { kind: 'metrical', ticksPerQuarter: 480 };

const timeline = (change: Partial<Timeline> = {}): Timeline => ({
  division: metrical,
  tempo: [{ tick: 0, microsecondsPerQuarter: 500_000 }],
  meter: [{ tick: 0, beats: 4, unit: 4 }],
  markers: [],
  smpteOffset: null,
  timecode: null,
  ...change,
});

const place = (change: Partial<Timeline>, tick: number): string => {
  const { bar, beat } = clock(timeline(change)).placeAt(tick);
  return `${bar}:${beat}`;
};

describe('seconds', () => {
  const tempo: readonly TempoChange[] = [
    { tick: 0, microsecondsPerQuarter: 500_000 },
    { tick: 480, microsecondsPerQuarter: 1_000_000 },
    { tick: 960, microsecondsPerQuarter: 250_000 },
  ];

  // By hand: 480 ticks at 120 a minute last 0.5 s, at 60 they last 1 s, at 240 they last 0.25 s.
  test.each([
    [0, 0],
    [240, 0.25],
    [480, 0.5],
    [720, 1],
    [960, 1.5],
    [1440, 1.75],
    [48_960, 26.5],
  ])('tick %d', (tick, seconds) => {
    const time = clock(timeline({ tempo }));
    expect(time.secondsAt(tick)).toBe(seconds);
    expect(time.placeAt(tick).seconds).toBe(seconds);
  });

  // RP-001, "Header Chunks": a tick is a part of a frame whatever the tempo; 29 is 30 drop frame,
  // whose frames come at 30000/1001 a second (SMPTE ST 12-1, from memory).
  test.each([
    [24, 4, 960, 10],
    [25, 40, 1000, 1],
    [30, 80, 2400, 1],
    [29, 100, 3_000_000, 1001],
    [29, 1, 30, 1.001],
  ])(
    '%d frames of %d ticks: tick %d is second %d',
    (framesPerSecond, ticksPerFrame, tick, seconds) => {
      const division: Division = { kind: 'smpte', framesPerSecond, ticksPerFrame };
      expect(clock(timeline({ division, tempo })).secondsAt(tick)).toBeCloseTo(seconds, 12);
    },
  );

  it('ten thousand tempo changes add up without a rounding error', () => {
    const many = Array.from({ length: 10_000 }, (_, index) => ({
      tick: index,
      microsecondsPerQuarter: 333_333,
    }));
    expect(clock(timeline({ tempo: many })).secondsAt(10_000)).toBe((333_333 * 10_000) / 480e6);
  });
});

describe('bars and beats', () => {
  const threeFour: MeterChange = { tick: 0, beats: 3, unit: 4 };
  const sixEight: MeterChange = { tick: 0, beats: 6, unit: 8 };

  test.each([
    ['4/4', {}, 0, '1:1'],
    ['4/4', {}, 480, '1:2'],
    ['4/4, a sixteenth', {}, 600, '1:2.25'],
    ['4/4, last tick of a bar', {}, 1919, '1:4.997'],
    ['4/4, next bar', {}, 1920, '2:1'],
    ['4/4, a triplet eighth', {}, 160, '1:1.333'],
    ['4/4, two triplet eighths: cut, not rounded', {}, 320, '1:1.666'],
    ['3/4', { meter: [threeFour] }, 1440, '2:1'],
    ['6/8 counts eighths', { meter: [sixEight] }, 720, '1:4'],
    ['6/8, next bar', { meter: [sixEight] }, 1440, '2:1'],
    [
      '7/128 at 1 tick a quarter',
      {
        division: { kind: 'metrical', ticksPerQuarter: 1 },
        meter: [{ tick: 0, beats: 7, unit: 128 }],
      },
      1,
      '5:5',
    ],
    [
      'the largest division',
      { division: { kind: 'metrical', ticksPerQuarter: 32_767 } },
      32_767 * 4 - 1,
      '1:4.999',
    ],
  ] as const)('%s: tick %#', (_, change, tick, expected) => {
    expect(place(change, tick)).toBe(expected);
  });

  it('a meter change on a bar line', () => {
    const meter = [threeFour, { tick: 2880, beats: 2, unit: 4 }];
    expect([2879, 2880, 3360, 3840].map((tick) => place({ meter }, tick))).toEqual([
      '2:3.997',
      '3:1',
      '3:2',
      '4:1',
    ]);
  });

  it('a meter change inside a bar begins a new bar', () => {
    const meter = [
      { tick: 0, beats: 4, unit: 4 },
      { tick: 2400, beats: 3, unit: 8 },
    ];
    expect([2399, 2400, 3120].map((tick) => place({ meter }, tick))).toEqual([
      '2:1.997',
      '3:1',
      '4:1',
    ]);
  });

  it('a meter change one tick behind a bar line begins one more bar', () => {
    const meter = [
      { tick: 0, beats: 4, unit: 4 },
      { tick: 1921, beats: 4, unit: 4 },
    ];
    expect([1920, 1921].map((tick) => place({ meter }, tick))).toEqual(['2:1', '3:1']);
  });

  it('with SMPTE divisions beats are whole although seconds are fractions', () => {
    // 333 333 microseconds of 30 000 / 1001 x 100 ticks a second are 999 ticks.
    const time = clock(
      timeline({
        division: { kind: 'smpte', framesPerSecond: 29, ticksPerFrame: 100 },
        tempo: [{ tick: 0, microsecondsPerQuarter: 333_333 }],
      }),
    );
    const beats = Array.from({ length: 1000 }, (_, index) => time.placeAt(999 * index));
    expect(beats.map(({ bar, beat }) => (bar - 1) * 4 + beat - 1)).toEqual(beats.map((_, i) => i));
  });

  it('with SMPTE divisions they follow the tempo over the seconds', () => {
    // A tick is a millisecond (RP-001). 120 a minute: a beat is 500 ticks; from second 4 on, at 60
    // a minute, a beat is 1000 ticks.
    const change = {
      division: { kind: 'smpte', framesPerSecond: 25, ticksPerFrame: 40 } as const,
      tempo: [
        { tick: 0, microsecondsPerQuarter: 500_000 },
        { tick: 4000, microsecondsPerQuarter: 1_000_000 },
      ],
    };
    expect([0, 500, 1999, 2000, 4000, 5000, 7999, 8000].map((tick) => place(change, tick))).toEqual(
      ['1:1', '1:2', '1:4.998', '2:1', '3:1', '3:2', '3:4.999', '4:1'],
    );
  });
});

describe('any timeline', () => {
  const anyTimeline = fc
    .record({
      ticksPerQuarter: fc.integer({ min: 1, max: 32_767 }),
      smpte: fc.option(fc.constantFrom(24, 25, 29, 30)),
      tempo: fc.array(
        fc.tuple(fc.integer({ min: 1, max: 100_000 }), fc.integer({ min: 1, max: 0xff_ffff })),
        { maxLength: 8 },
      ),
      meter: fc.array(
        fc.tuple(
          fc.integer({ min: 1, max: 100_000 }),
          fc.integer({ min: 1, max: 255 }),
          fc.integer({ min: 0, max: 7 }),
        ),
        { maxLength: 8 },
      ),
    })
    .map(({ ticksPerQuarter, smpte, tempo, meter }): Timeline => {
      const first = <Row extends readonly [number, ...number[]]>(rows: readonly Row[]): Row[] =>
        [...new Map(rows.map((row) => [row[0], row])).values()].sort((a, b) => a[0] - b[0]);
      return timeline({
        division:
          smpte === null
            ? { kind: 'metrical', ticksPerQuarter }
            : { kind: 'smpte', framesPerSecond: smpte, ticksPerFrame: (ticksPerQuarter % 255) + 1 },
        tempo: [
          { tick: 0, microsecondsPerQuarter: 500_000 },
          ...first(tempo).map(([tick, microsecondsPerQuarter]) => ({
            tick,
            microsecondsPerQuarter,
          })),
        ],
        meter: [
          { tick: 0, beats: 4, unit: 4 },
          ...first(meter).map(([tick, beats, power]) => ({ tick, beats, unit: 2 ** power })),
        ],
      });
    });

  it('time and place only go on', () => {
    fc.assert(
      fc.property(anyTimeline, fc.array(fc.nat(200_000), { maxLength: 50 }), (any, ticks) => {
        const time = clock(any);
        let last = { bar: 1, beat: 1, seconds: 0 };
        for (const tick of [...ticks].sort((a, b) => a - b)) {
          const next = time.placeAt(tick);
          expect(next.seconds).toBeGreaterThanOrEqual(last.seconds);
          expect(next.bar).toBeGreaterThanOrEqual(last.bar);
          if (next.bar === last.bar) expect(next.beat).toBeGreaterThanOrEqual(last.beat);
          expect(Math.round(next.beat * 1000) / 1000).toBe(next.beat);
          last = next;
        }
      }),
      { seed: 1, numRuns: 300 },
    );
  });

  it('beats stay inside their meter', () => {
    fc.assert(
      fc.property(anyTimeline, fc.nat(200_000), (any, tick) => {
        const { beat } = clock(any).placeAt(tick);
        const meter = any.meter.findLast((change) => change.tick <= tick);
        expect(beat).toBeGreaterThanOrEqual(1);
        expect(beat).toBeLessThan((meter?.beats ?? 0) + 1);
      }),
      { seed: 2, numRuns: 300 },
    );
  });

  it('a meter change is beat 1', () => {
    fc.assert(
      fc.property(anyTimeline, (any) => {
        const time = clock(any);
        for (const { tick } of any.meter) expect(time.placeAt(tick).beat).toBe(1);
      }),
      { seed: 3, numRuns: 300 },
    );
  });
});
