import { writeMidi, type MidiEvent } from 'midi-file';
import type { SfzCue, SfzEvent } from '../../oracle/sfz-data.ts';

const kinds: Readonly<Record<SfzEvent['kind'], (event: SfzEvent) => object>> = {
  'note-on': ({ data1, data2 }) => ({ type: 'noteOn', noteNumber: data1, velocity: data2 }),
  'note-off': ({ data1, data2 }) => ({ type: 'noteOff', noteNumber: data1, velocity: data2 }),
  controller: ({ data1, data2 }) => ({ type: 'controller', controllerType: data1, value: data2 }),
  bend: ({ data1, data2 }) => ({ type: 'pitchBend', value: data1 + 128 * data2 - 8192 }),
  pressure: ({ data1 }) => ({ type: 'channelAftertouch', amount: data1 }),
  'poly-pressure': ({ data1, data2 }) => ({
    type: 'noteAftertouch',
    noteNumber: data1,
    amount: data2,
  }),
  program: ({ data1 }) => ({ type: 'programChange', programNumber: data1 }),
};

/** A cue of one track as a MIDI file of 480 ticks a quarter. */
export const cueBytes = ({ events, tempos }: SfzCue): Uint8Array => {
  const timed = [
    ...tempos.map(({ tick, bpm }) => ({
      tick,
      event: { type: 'setTempo', microsecondsPerBeat: Math.round(60_000_000 / bpm) },
    })),
    ...events.map((event) => ({
      tick: event.tick,
      event: { channel: event.channel, ...kinds[event.kind](event) },
    })),
  ].sort((a, b) => a.tick - b.tick);
  let last = 0;
  const track = timed.map(({ tick, event }) => {
    const deltaTime = tick - last;
    last = tick;
    return { deltaTime, ...event } as MidiEvent;
  });
  const end: MidiEvent = { deltaTime: 0, meta: true, type: 'endOfTrack' };
  const header = { format: 0 as const, numTracks: 1, ticksPerBeat: 480 };
  return Uint8Array.from(writeMidi({ header, tracks: [[...track, end]] }));
};
