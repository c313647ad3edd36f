import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Timeline } from '../../src/midi/score.ts';
import { readTimecode, timecodeAt, type TimecodeRate } from '../../src/midi/timecode.ts';

const beginning = (timecode: Timeline['timecode']): Timeline => ({
  division: { kind: 'metrical', ticksPerQuarter: 480 },
  tempo: [{ tick: 0, microsecondsPerQuarter: 500_000 }],
  meter: [{ tick: 0, beats: 4, unit: 4 }],
  markers: [],
  smpteOffset: null,
  timecode,
});

const at = (
  rate: TimecodeRate,
  [hours, minutes, seconds, frames]: readonly [number, number, number, number],
  passed: number,
  hundredths = 0,
): string | null =>
  timecodeAt(beginning({ rate, hours, minutes, seconds, frames, hundredths }), passed);

const midnight = [0, 0, 0, 0] as const;

describe('the five bytes of FF 54', () => {
  // SMF 1.0, "SMPTE Offset": hr mn se fr ff, the hour "as it is in MIDI Time Code": there its bits 5
  // and 6 are the rate, 00 24, 01 25, 10 30 drop frame, 11 30 (Quarter Frame Messages).
  test.each([
    [0x01, 24],
    [0x21, 25],
    [0x41, 29],
    [0x61, 30],
    // The bit above them is not used.
    [0xc1, 29],
  ])('hour byte %i: %i frames', (hour, rate) => {
    const rest = { hours: 1, minutes: 2, seconds: 3, frames: 4, hundredths: 5 };
    expect(readTimecode(hour, 2, 3, 4, 5)).toEqual({ rate, ...rest });
  });

  test.each([
    [24, 0, 0, 0, 0],
    [0, 60, 0, 0, 0],
    [0, 0, 60, 0, 0],
    // 24 frames a second are 0 to 23.
    [0, 0, 0, 24, 0],
    [0, 0, 0, 0, 100],
    [0x40, 0, 0, 30, 0],
  ] as const)('%i %i %i %i %i is no time', (hour, minutes, seconds, frames, hundredths) => {
    expect(readTimecode(hour, minutes, seconds, frames, hundredths)).toBeNull();
  });

  test('29 frames are too many for 25, and not for 30 drop frame', () => {
    expect(readTimecode(0x20, 0, 0, 29, 0)).toBeNull();
    expect(readTimecode(0x40, 0, 0, 29, 0)).not.toBeNull();
  });
});

describe('without dropped frames', () => {
  // By hand: whole frames of 1/24, 1/25, 1/30 s.
  test.each([
    [24, 0, '01:00:00:00'],
    [24, 0.5, '01:00:00:12'],
    [25, 1.99, '01:00:01:24'],
    [25, 61.04, '01:01:01:01'],
    [30, 3599.99, '01:59:59:29'],
    [30, 3600, '02:00:00:00'],
  ] as const)('%i frames, %f s after 01:00:00:00', (rate, seconds, time) => {
    expect(at(rate, [1, 0, 0, 0], seconds)).toBe(time);
  });

  test('hundredths of a frame count', () => {
    // Half a frame and half a frame are one.
    expect(at(25, midnight, 0.02, 50)).toBe('00:00:00:01');
    expect(at(25, midnight, 0.0199, 50)).toBe('00:00:00:00');
  });

  test('behind 23:59:59 comes midnight', () => {
    expect(at(25, [23, 59, 59, 24], 0.04)).toBe('00:00:00:00');
    expect(at(29, [23, 59, 59, 29], 1001 / 30_000)).toBe('00:00:00;00');
  });
});

/** Seconds that so many frames of 29.97 a second last. */
const lasting = (frames: number): number => (frames * 1_001) / 30_000;

describe('drop frame', () => {
  // D. Heidelberger, "Drop Frame Timecode" (2010), prints these one after another.
  test('the labels around 12:39:00', () => {
    const labels = ['12:38:59;27', '12:38:59;28', '12:38:59;29', '12:39:00;02', '12:39:00;03'];
    expect(labels.map((_, frame) => at(29, [12, 38, 59, 27], lasting(frame)))).toEqual(labels);
  });

  // Frame 1 800: Time::Timecode (Perl), t/03conversions.t. Ten minutes are 17 982 frames and an hour is
  // 107 892: the same article, and every text on the subject. The others by the rule, by hand.
  test.each([
    [1_799, '00:00:59;29'],
    [1_800, '00:01:00;02'],
    [3_597, '00:01:59;29'],
    [3_598, '00:02:00;02'],
    [17_981, '00:09:59;29'],
    [17_982, '00:10:00;00'],
    [17_983, '00:10:00;01'],
    [107_892, '01:00:00;00'],
  ])('frame %i is %s', (frame, label) => {
    expect(at(29, midnight, lasting(frame))).toBe(label);
  });

  test('a label that is left out is the next one', () => {
    expect(at(29, [0, 1, 0, 0], 0)).toBe('00:01:00;02');
    expect(at(29, [0, 1, 0, 1], 0)).toBe('00:01:00;02');
    expect(at(29, [0, 10, 0, 1], 0)).toBe('00:10:00;01');
  });

  /** The labels of ten minutes, written out by the rule: frames 0 and 1 of minutes 1 to 9 are not there. */
  const written = Array.from({ length: 600 * 30 }, (_, label) => label).filter(
    (label) => !(label % 1_800 < 2 && label >= 1_800),
  );

  test('every frame of a day has the label that the rule gives it', () => {
    expect(written.length).toBe(17_982);
    fc.assert(
      fc.property(fc.nat(143), fc.nat(17_981), (ten, frame) => {
        const label = written[frame]!;
        const second = ten * 600 + Math.floor(label / 30);
        const [hh, mm, ss] = [Math.floor(second / 3600), Math.floor(second / 60) % 60, second % 60];
        const text = [hh, mm, ss].map((part) => String(part).padStart(2, '0')).join(':');
        expect(at(29, midnight, lasting(ten * 17_982 + frame))).toBe(
          `${text};${String(label % 30).padStart(2, '0')}`,
        );
      }),
    );
  });
});

test('counting on from any time code is counting on from midnight', () => {
  const anyStart = fc.record({
    rate: fc.constantFrom<TimecodeRate>(24, 25, 29, 30),
    hours: fc.nat(23),
    minutes: fc.nat(59),
    seconds: fc.nat(59),
    frames: fc.nat(23),
  });
  fc.assert(
    fc.property(anyStart, fc.nat(1_000_000), ({ rate, ...start }, frames) => {
      const length = rate === 29 ? 1_001 / 30_000 : 1 / rate;
      const parts = [start.hours, start.minutes, start.seconds, start.frames] as const;
      const later = at(rate, parts, frames * length)!;
      const again = later.split(/[:;]/).map(Number) as unknown as typeof parts;
      // Going on from there is going on from the beginning.
      expect(at(rate, again, 1_000 * length)).toBe(at(rate, parts, (frames + 1_000) * length));
    }),
  );
});

test('no time code, none at all', () => {
  expect(timecodeAt(beginning(null), 10)).toBeNull();
});
