import type { MidiEvent } from 'midi-file';
import type { PrimerTrack } from '../lanes.ts';

/** An event without its place in time. */
export type Placeless = MidiEvent extends infer One
  ? One extends { deltaTime: number }
    ? Omit<One, 'deltaTime'>
    : never
  : never;

/** A channel message as the writer takes it. */
export const channelEvent = (status: number, data1: number, data2: number): Placeless => {
  const channel = status & 15;
  switch (status >> 4) {
    case 0x8:
      return { type: 'noteOff', channel, noteNumber: data1, velocity: data2 };
    case 0x9:
      return { type: 'noteOn', channel, noteNumber: data1, velocity: data2 };
    case 0xa:
      return { type: 'noteAftertouch', channel, noteNumber: data1, amount: data2 };
    case 0xb:
      return { type: 'controller', channel, controllerType: data1, value: data2 };
    case 0xc:
      return { type: 'programChange', channel, programNumber: data1 };
    case 0xd:
      return { type: 'channelAftertouch', channel, amount: data1 };
    default:
      return { type: 'pitchBend', channel, value: data2 * 128 + data1 - 8192 };
  }
};

/** Text as the bytes of UTF-8, one character each: the writer puts one byte per character. */
const utf8 = (text: string): string => String.fromCharCode(...new TextEncoder().encode(text));

/** FF 09, which the writer has no name for. */
const deviceName = 9;

/** What stands at the beginning of a track (SMF 1.0, "Meta-Event Definitions"). */
export const heading = (track: PrimerTrack): readonly Placeless[] => [
  ...(track.name === null ? [] : [{ type: 'trackName', text: utf8(track.name) } as const]),
  ...(track.instrumentName === null
    ? []
    : [{ type: 'instrumentName', text: utf8(track.instrumentName) } as const]),
  ...(track.deviceName === null
    ? []
    : [
        {
          type: 'unknownMeta',
          metatypeByte: deviceName,
          data: new TextEncoder().encode(track.deviceName),
        } as const,
      ]),
  { type: 'portPrefix', port: track.port },
];

/** A remark at the beginning of a file. */
export const remark = (text: string): Placeless => ({ type: 'text', text: utf8(text) });
