import { parseMidi } from 'midi-file';
import { describe, expect, it } from 'vitest';
import {
  defaults,
  millisecondDivision,
  sixEight,
  smpteDivision,
  splitSysEx,
  tickTime,
  wholeSysEx,
} from '../../reference/smf-1.0-fragments.ts';
import { hex } from '../midi/hex.ts';

/** A file of one track around the bytes of its events. */
const file = (division: number, events: readonly number[]): Uint8Array => {
  const track = [...events, 0x00, 0xff, 0x2f, 0x00];
  return Uint8Array.from([
    ...[0x4d, 0x54, 0x68, 0x64, 0, 0, 0, 6, 0, 0, 0, 1, division >> 8, division & 0xff],
    ...[0x4d, 0x54, 0x72, 0x6b, 0, 0, 0, track.length, ...track],
  ]);
};

describe('the division word', () => {
  it.each([smpteDivision, millisecondDivision])('$word', ({ word, ...stated }) => {
    const { framesPerSecond, ticksPerFrame } = parseMidi(file(word, [])).header;
    expect({ framesPerSecond, ticksPerFrame }).toEqual(stated);
  });

  it('gives a tick of a millisecond at 25 frames of 40 ticks', () => {
    expect(millisecondDivision.framesPerSecond * millisecondDivision.ticksPerFrame).toBe(1000);
  });
});

it('6/8 reads as stated, and its bar is as long in clocks as in eighths', () => {
  const event = parseMidi(file(96, [0, ...hex(sixEight.hex)])).tracks[0]?.[0];
  expect(event).toMatchObject({
    type: 'timeSignature',
    numerator: sixEight.numerator,
    denominator: sixEight.denominator,
    metronome: sixEight.clocksPerClick,
    thirtyseconds: sixEight.thirtySecondsPerQuarter,
  });
  // 24 clocks a quarter note (RP-001), so 12 an eighth; a click every three eighths.
  expect(sixEight.clocksPerBar).toBe(sixEight.numerator * 12);
  expect(sixEight.clocksPerClick).toBe(3 * 12);
});

describe('system exclusive', () => {
  it('a whole message is stored with the length of what follows F0', () => {
    const sent = [...hex(wholeSysEx.sentHex)];
    expect([...hex(wholeSysEx.storedHex)]).toEqual([0xf0, sent.length - 1, ...sent.slice(1)]);
  });

  it('a split message keeps its packets and their times', () => {
    const events = parseMidi(file(96, [0, ...hex(splitSysEx.storedHex)])).tracks[0] ?? [];
    let tick = 0;
    const packets = events.slice(0, -1).map((event) => {
      tick += event.deltaTime;
      // midi-file calls the first packet sysEx and leaves F0 out, later ones endSysEx.
      if (event.type !== 'sysEx' && event.type !== 'endSysEx') throw new Error(event.type);
      return { tick, sent: [...(event.type === 'sysEx' ? [0xf0] : []), ...Array.from(event.data)] };
    });
    expect(packets).toEqual(
      splitSysEx.packets.map((packet) => ({ tick: packet.tick, sent: [...hex(packet.sentHex)] })),
    );
  });
});

it('ticks to milliseconds: the formula of the standard gives its result', () => {
  const { ticks, ticksPerQuarter, microsecondsPerQuarter, milliseconds } = tickTime;
  expect((ticks * (microsecondsPerQuarter / ticksPerQuarter)) / 1000).toBeCloseTo(milliseconds, 9);
});

it('the default tempo is the one the example file states although implied', () => {
  // RP-001, before the example: "a tempo of 120, though implied"; the file says 500000.
  expect(60_000_000 / defaults.beatsPerMinute).toBe(500_000);
  expect([defaults.numerator, defaults.denominator]).toEqual([4, 4]);
});
