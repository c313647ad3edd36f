import { describe, expect, it, test } from 'vitest';
import { format0, format1, type ExampleEvent } from '../../reference/smf-1.0-decoded.ts';
import { millisecondDivision, smpteDivision, tickTime } from '../../reference/smf-1.0-fragments.ts';
import { format0Hex, format1Hex } from '../../reference/smf-1.0.ts';
import { readMidi } from '../../src/midi/read-midi.ts';
import { clock } from '../../src/midi/timeline.ts';
import { hex } from './hex.ts';
import { hexOf, listEvents } from './listing.ts';
import { smf } from './smf-file.ts';

/** The line that a channel message of the standard's example has in our listing. */
const line = (event: ExampleEvent): string[] => {
  switch (event.type) {
    case 'program':
      return [`${event.tick} ${hexOf([0xc0 + event.channel - 1, event.program])}`];
    case 'note-on':
    case 'note-off': {
      const status = (event.type === 'note-on' ? 0x90 : 0x80) + event.channel - 1;
      return [`${event.tick} ${hexOf([status, event.key, event.velocity])}`];
    }
    default:
      return [];
  }
};

describe('RP-001, "Program Fragments and Example MIDI Files"', () => {
  test.each([
    ['format 0', format0Hex, format0],
    ['format 1', format1Hex, format1],
  ])('%s, byte for byte', (_, text, example) => {
    const score = readMidi(hex(text), 'example.mid');
    expect(score.format).toBe(example.format);
    expect(score.tracks.map((track) => listEvents(track.events))).toEqual(
      example.tracks.map((events) => events.flatMap(line)),
    );
    expect(score.timelines).toEqual([
      {
        division: { kind: 'metrical', ticksPerQuarter: example.ticksPerQuarter },
        tempo: [{ tick: 0, microsecondsPerQuarter: 500_000 }],
        meter: [{ tick: 0, beats: 4, unit: 4 }],
        markers: [],
        smpteOffset: null,
        timecode: null,
      },
    ]);
    expect(score.tracks.map((track) => track.end)).toEqual(
      example.tracks.map((events) => events.at(-1)?.tick),
    );
    expect(score.findings).toEqual([]);
    expect(score.missingTracks).toBe(0);
  });

  it('"Calculating Delta Times": ticks to milliseconds', () => {
    const time = clock({
      division: { kind: 'metrical', ticksPerQuarter: tickTime.ticksPerQuarter },
      tempo: [{ tick: 0, microsecondsPerQuarter: tickTime.microsecondsPerQuarter }],
      meter: [{ tick: 0, beats: 4, unit: 4 }],
      markers: [],
      smpteOffset: null,
      timecode: null,
    });
    expect(time.secondsAt(tickTime.ticks)).toBe(tickTime.milliseconds / 1000);
  });

  test.each([smpteDivision, millisecondDivision])(
    '"Header Chunks": division $word',
    ({ word, framesPerSecond, ticksPerFrame }) => {
      const division = word.toString(16);
      const score = readMidi(smf(['00 FF 2F 00'], { division }), 'example.mid');
      expect(score.timelines[0]?.division).toEqual({
        kind: 'smpte',
        framesPerSecond,
        ticksPerFrame,
      });
    },
  );
});
