import { parseMidi, type MidiEvent } from 'midi-file';
import { describe, expect, it, test } from 'vitest';
import {
  exampleNotes,
  format0,
  format1,
  type ExampleEvent,
  type ExampleFile,
  type ExampleNote,
} from '../../reference/smf-1.0-decoded.ts';
import {
  exampleSizes,
  format0Hex,
  format1Hex,
  misprintedTracks,
  vlqMaximum,
  vlqTable,
} from '../../reference/smf-1.0.ts';
import { hex } from '../midi/hex.ts';

/** RP-001, "Conventions": seven bits a byte, highest first. */
const vlq = (bytes: readonly number[]): number =>
  bytes.reduce((value, byte) => value * 128 + (byte & 0x7f), 0);

const text = (bytes: Uint8Array): string => String.fromCharCode(...bytes);

/** The chunks of a file by their stated lengths; throws when they do not fill it exactly. */
const chunks = (file: Uint8Array): { readonly id: string; readonly bytes: number }[] => {
  const found = [];
  const view = new DataView(file.buffer);
  let at = 0;
  while (at < file.length) {
    const bytes = view.getUint32(at + 4);
    found.push({ id: text(file.subarray(at, at + 4)), bytes });
    at += 8 + bytes;
  }
  if (at !== file.length) throw new Error(`chunks end at ${at}, the file at ${file.length}`);
  return found;
};

/** midi-file's event in the words of the decoded data; it gives channels from 0 and deltas. */
const translate = (event: MidiEvent, tick: number): ExampleEvent => {
  switch (event.type) {
    case 'timeSignature':
      return {
        tick,
        type: 'time-signature',
        numerator: event.numerator,
        denominator: event.denominator,
        clocksPerClick: event.metronome,
        thirtySecondsPerQuarter: event.thirtyseconds,
      };
    case 'setTempo':
      return { tick, type: 'tempo', microsecondsPerQuarter: event.microsecondsPerBeat };
    case 'programChange':
      return { tick, type: 'program', channel: event.channel + 1, program: event.programNumber };
    case 'noteOn':
    case 'noteOff':
      return {
        tick,
        // midi-file calls a note-on of velocity 0 a note-off and sets byte9.
        type: event.type === 'noteOn' || event.byte9 === true ? 'note-on' : 'note-off',
        channel: event.channel + 1,
        key: event.noteNumber,
        velocity: event.velocity,
      };
    case 'endOfTrack':
      return { tick, type: 'end-of-track' };
    default:
      throw new Error(`the examples hold no ${event.type}`);
  }
};

const parse = (bytes: Uint8Array): ExampleFile => {
  const { header, tracks } = parseMidi(bytes);
  return {
    format: header.format === 0 ? 0 : 1,
    ticksPerQuarter: header.ticksPerBeat ?? 0,
    tracks: tracks.map((events) => {
      let tick = 0;
      return events.map((event) => translate(event, (tick += event.deltaTime)));
    }),
  };
};

/** The notes of a decoded file, each with the end that belongs to it, by channel and key. */
const notes = (file: ExampleFile): readonly ExampleNote[] =>
  file.tracks
    .flatMap((events) =>
      events.flatMap((event, index) => {
        if (event.type !== 'note-on' || event.velocity === 0) return [];
        const { channel, key, velocity, tick: start } = event;
        const end = events
          .slice(index + 1)
          .find((later) => 'key' in later && later.key === key && later.channel === channel);
        if (end === undefined) throw new Error(`key ${key} has no end`);
        return [{ channel, key, velocity, start, end: end.tick }];
      }),
    )
    .sort((a, b) => a.channel - b.channel || a.key - b.key);

describe('the variable-length quantity table', () => {
  it('has the twelve rows of the standard, ascending', () => {
    expect(vlqTable).toHaveLength(12);
    const values = vlqTable.map((row) => row.value);
    expect(values).toEqual([...values].sort((a, b) => a - b));
    expect(values.at(-1)).toBe(vlqMaximum);
  });

  test.each(vlqTable)('$value', ({ value, bytes }) => {
    expect(vlq(bytes)).toBe(value);
    expect(bytes.map((byte) => byte >= 0x80)).toEqual(
      bytes.map((_, index) => index < bytes.length - 1),
    );
  });

  it('has the lowest and the highest number of each length, and no longer form of either', () => {
    // From the rule, seven bits a byte: lengths 1 to 4 begin at 0, 2^7, 2^14 and 2^21.
    for (const length of [1, 2, 3, 4]) {
      const values = vlqTable.filter((row) => row.bytes.length === length).map((row) => row.value);
      expect(values).toHaveLength(3);
      expect(Math.min(...values)).toBe(length === 1 ? 0 : 128 ** (length - 1));
      expect(Math.max(...values)).toBe(128 ** length - 1);
    }
  });
});

describe.each([
  { name: 'format 0', dump: format0Hex, sizes: exampleSizes.format0, decoded: format0 },
  { name: 'format 1', dump: format1Hex, sizes: exampleSizes.format1, decoded: format1 },
])('the $name example', ({ dump, sizes, decoded }) => {
  const file = hex(dump);

  it('has the chunks whose lengths the standard states, and nothing else', () => {
    expect(file).toHaveLength(sizes.fileBytes);
    expect(chunks(file)).toEqual([
      { id: 'MThd', bytes: 6 },
      ...sizes.trackBytes.map((bytes) => ({ id: 'MTrk', bytes })),
    ]);
  });

  it('decodes to the data, read by midi-file', () => {
    expect(parse(file)).toEqual(decoded);
  });

  it('holds the four notes of the piece', () => {
    expect(notes(decoded)).toEqual(exampleNotes);
  });
});

it('both files hold the same meter, tempo and programs, and end together', () => {
  const rest = (file: ExampleFile) =>
    file.tracks
      .flat()
      .filter((event) => !['note-on', 'note-off', 'end-of-track'].includes(event.type));
  expect(rest(format1)).toEqual(rest(format0));
  for (const track of [...format0.tracks, ...format1.tracks]) {
    expect(track.at(-1)).toEqual({ tick: 384, type: 'end-of-track' });
  }
});

it('the misprinted tracks are told from the real ones by their length or their notes', () => {
  for (const { track, statedBytes, hex: dump } of misprintedTracks) {
    const bytes = hex(dump);
    expect(statedBytes).toBe(exampleSizes.format1.trackBytes[track]);
    // Track 2 keeps its length by chance: only its first delta-time gives it away.
    expect(bytes.length === statedBytes).toBe(track === 2);
    expect(text(hex(format1Hex))).not.toContain(text(bytes));
  }
  expect(misprintedTracks.map((row) => row.track)).toEqual([1, 2, 3]);
});

it('the misprinted tracks hold the real events at other times', () => {
  const header = hex('4D 54 68 64 00 00 00 06 00 00 00 01 00 60 4D 54 72 6B 00 00 00');
  const ends = misprintedTracks.map(({ track, hex: dump }) => {
    const bytes = hex(dump);
    const events = parse(Uint8Array.from([...header, bytes.length, ...bytes])).tracks[0] ?? [];
    const untimed = (list: readonly ExampleEvent[]) => list.map((event) => ({ ...event, tick: 0 }));
    expect(untimed(events)).toEqual(untimed(format1.tracks[track] ?? []));
    expect(events[1]?.tick).toBe(0);
    return events.at(-1)?.tick;
  });
  // By hand from the dumps: 384; 384; 288 + 384.
  expect(ends).toEqual([384, 384, 672]);
});
