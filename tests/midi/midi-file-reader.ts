import { parseMidi, writeMidi, type MidiEvent } from 'midi-file';
import type { RawCue, RawEvent } from './raw-cue.ts';

/** Text as midi-file holds it: a letter for each byte. */
const letters = (data: readonly number[]): string => String.fromCharCode(...data);
const codes = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));

const texts = {
  text: 0x01,
  copyrightNotice: 0x02,
  trackName: 0x03,
  instrumentName: 0x04,
  lyrics: 0x05,
  marker: 0x06,
  cuePoint: 0x07,
} as const;
const textTypes = new Map(
  Object.entries(texts).map(([name, type]) => [type as number, name as keyof typeof texts]),
);

/** Frame rates of an SMPTE offset, by the two bits above its hour (RP-001, FF 54). */
const rates = [24, 25, 29, 30] as const;

const toRaw = (event: MidiEvent, tick: number): RawEvent => {
  const message = (...bytes: readonly number[]): RawEvent => ({ tick, kind: 'message', bytes });
  const meta = (type: number, data: readonly number[]): RawEvent => ({
    tick,
    kind: 'meta',
    type,
    data,
  });
  switch (event.type) {
    case 'noteOff':
      return message(
        (event.byte9 === true ? 0x90 : 0x80) + event.channel,
        event.noteNumber,
        event.velocity,
      );
    case 'noteOn':
      return message(0x90 + event.channel, event.noteNumber, event.velocity);
    case 'noteAftertouch':
      return message(0xa0 + event.channel, event.noteNumber, event.amount);
    case 'controller':
      return message(0xb0 + event.channel, event.controllerType, event.value);
    case 'programChange':
      return message(0xc0 + event.channel, event.programNumber);
    case 'channelAftertouch':
      return message(0xd0 + event.channel, event.amount);
    case 'pitchBend': {
      const value = event.value + 0x2000;
      return message(0xe0 + event.channel, value & 0x7f, value >> 7);
    }
    case 'sysEx':
      return { tick, kind: 'packet', status: 0xf0, data: Array.from(event.data) };
    case 'endSysEx':
      return { tick, kind: 'packet', status: 0xf7, data: Array.from(event.data) };
    case 'setTempo': {
      const tempo = event.microsecondsPerBeat;
      return meta(0x51, [tempo >> 16, (tempo >> 8) & 0xff, tempo & 0xff]);
    }
    case 'timeSignature':
      return meta(0x58, [
        event.numerator,
        Math.log2(event.denominator),
        event.metronome,
        event.thirtyseconds,
      ]);
    case 'smpteOffset': {
      const rate = rates.findIndex((known) => known === event.frameRate);
      return meta(0x54, [
        rate * 32 + event.hour,
        event.min,
        event.sec,
        event.frame,
        event.subFrame,
      ]);
    }
    case 'portPrefix':
      return meta(0x21, [event.port]);
    case 'channelPrefix':
      return meta(0x20, [event.channel]);
    case 'sequenceNumber':
      return meta(0x00, [event.number >> 8, event.number & 0xff]);
    case 'keySignature':
      return meta(0x59, [event.key & 0xff, event.scale]);
    case 'endOfTrack':
      return meta(0x2f, []);
    case 'sequencerSpecific':
      return meta(0x7f, Array.from(event.data));
    case 'unknownMeta':
      return meta(event.metatypeByte, Array.from(event.data));
    default:
      return meta(texts[event.type], codes(event.text));
  }
};

/** Reads with midi-file. */
export const readWithMidiFile = (bytes: Uint8Array): RawCue => {
  const { header, tracks } = parseMidi(bytes);
  const { format, ticksPerBeat, framesPerSecond = 0, ticksPerFrame = 0 } = header;
  return {
    format,
    division: ticksPerBeat ?? (0x100 - framesPerSecond) * 0x100 + ticksPerFrame,
    tracks: tracks.map((events) => {
      let tick = 0;
      return events.map((event) => toRaw(event, (tick += event.deltaTime)));
    }),
  };
};

const toEvent = (event: RawEvent, deltaTime: number): MidiEvent => {
  if (event.kind === 'packet') {
    const { data } = event;
    return { deltaTime, type: event.status === 0xf0 ? 'sysEx' : 'endSysEx', data };
  }
  if (event.kind === 'meta') {
    const { type: metatypeByte, data } = event;
    const text = textTypes.get(metatypeByte);
    if (text !== undefined) return { deltaTime, type: text, text: letters(data) };
    if (metatypeByte === 0x2f) return { deltaTime, type: 'endOfTrack' };
    return { deltaTime, type: 'unknownMeta', metatypeByte, data };
  }
  const [status = 0, first = 0, second = 0] = event.bytes;
  const channel = status & 0xf;
  switch (status >> 4) {
    case 0x8:
      return { deltaTime, type: 'noteOff', channel, noteNumber: first, velocity: second };
    case 0x9:
      return { deltaTime, type: 'noteOn', channel, noteNumber: first, velocity: second };
    case 0xa:
      return { deltaTime, type: 'noteAftertouch', channel, noteNumber: first, amount: second };
    case 0xb:
      return { deltaTime, type: 'controller', channel, controllerType: first, value: second };
    case 0xc:
      return { deltaTime, type: 'programChange', channel, programNumber: first };
    case 0xd:
      return { deltaTime, type: 'channelAftertouch', channel, amount: first };
    default:
      return { deltaTime, type: 'pitchBend', channel, value: first + second * 0x80 - 0x2000 };
  }
};

/** Writes with midi-file, which counts lengths and runs statuses on. */
export const writeWithMidiFile = (cue: RawCue, running: boolean): Uint8Array =>
  Uint8Array.from(
    writeMidi(
      {
        header: {
          format: cue.format as 0 | 1 | 2,
          numTracks: cue.tracks.length,
          timeDivision: cue.division,
        },
        tracks: cue.tracks.map((events) =>
          events.map((event, index) => toEvent(event, event.tick - (events[index - 1]?.tick ?? 0))),
        ),
      },
      { running, useByte9ForNoteOff: false },
    ),
  );
