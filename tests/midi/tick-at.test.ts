import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Division, Timeline } from '../../src/midi/score.ts';
import { clock } from '../../src/midi/timeline.ts';

const timeline = (change: Partial<Timeline> = {}): Timeline => ({
  division: { kind: 'metrical', ticksPerQuarter: 480 },
  tempo: [{ tick: 0, microsecondsPerQuarter: 500_000 }],
  meter: [{ tick: 0, beats: 4, unit: 4 }],
  markers: [],
  smpteOffset: null,
  timecode: null,
  ...change,
});

// By hand: 480 ticks at 120 a minute last 0.5 s, at 60 they last 1 s.
test.each([
  [0, 0],
  [0.25, 240],
  [0.5, 480],
  [1, 720],
  [1.0005, 720.24],
])('second %d is tick %d', (seconds, tick) => {
  const tempo = [
    { tick: 0, microsecondsPerQuarter: 500_000 },
    { tick: 480, microsecondsPerQuarter: 1_000_000 },
  ];
  expect(clock(timeline({ tempo })).tickAt(seconds)).toBeCloseTo(tick, 9);
});

const division = fc.oneof(
  fc.constantFrom(1, 24, 480, 960, 32_767).map((ticksPerQuarter): Division => ({
    kind: 'metrical',
    ticksPerQuarter,
  })),
  fc
    .tuple(fc.constantFrom(24, 25, 29, 30), fc.constantFrom(1, 4, 80, 255))
    .map(([framesPerSecond, ticksPerFrame]): Division => ({
      kind: 'smpte',
      framesPerSecond,
      ticksPerFrame,
    })),
);

const tempo = fc
  .array(
    fc.tuple(fc.integer({ min: 1, max: 100_000 }), fc.integer({ min: 10_000, max: 3_000_000 })),
  )
  .map((list) => {
    const byTick = new Map([[0, 500_000], ...list] as const);
    return [...byTick]
      .sort(([a], [b]) => a - b)
      .map(([tick, microsecondsPerQuarter]) => ({ tick, microsecondsPerQuarter }));
  });

test('a whole tick comes back from its seconds as it was', () => {
  fc.assert(
    fc.property(division, tempo, fc.nat(200_000), (one, changes, tick) => {
      const time = clock(timeline({ division: one, tempo: changes }));
      expect(time.tickAt(time.secondsAt(tick))).toBe(tick);
    }),
  );
});
