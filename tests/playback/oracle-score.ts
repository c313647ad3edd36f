import type { Score, SysEx } from '../../src/midi/score.ts';
import type { OracleEvent } from '../oracle/soundfont-events.ts';

type ChannelEvent = Exclude<OracleEvent, { kind: 'sysex' }>;

const bytesOf = (event: ChannelEvent): readonly [status: number, data1: number, data2: number] => {
  switch (event.kind) {
    case 'note-on':
      return [0x90 | event.channel, event.key, event.velocity];
    case 'note-off':
      return [0x80 | event.channel, event.key, 64];
    case 'controller':
      return [0xb0 | event.channel, event.number, event.value];
    case 'program':
      return [0xc0 | event.channel, event.program, 0];
  }
};

/** A score of one track on port 0 that holds just these events. */
export const scoreOf = (events: readonly OracleEvent[]): Score => {
  const sysex: SysEx[] = [];
  const rows: { tick: number; bytes: readonly [number, number, number] }[] = [];
  for (const event of events) {
    if (event.kind === 'sysex') {
      const data = Uint8Array.from(event.data);
      sysex.push({ tick: event.tick, before: rows.length, port: 0, data });
    } else rows.push({ tick: event.tick, bytes: bytesOf(event) });
  }
  return {
    format: 1,
    timelines: [
      {
        division: { kind: 'metrical', ticksPerQuarter: 480 },
        tempo: [{ tick: 0, microsecondsPerQuarter: 500_000 }],
        meter: [{ tick: 0, beats: 4, unit: 4 }],
        markers: [],
        smpteOffset: null,
        timecode: null,
      },
    ],
    tracks: [
      {
        index: 0,
        name: null,
        instrumentName: null,
        deviceName: null,
        timeline: 0,
        events: {
          length: rows.length,
          tick: Float64Array.from(rows, ({ tick }) => tick),
          status: Uint8Array.from(rows, ({ bytes }) => bytes[0]),
          data1: Uint8Array.from(rows, ({ bytes }) => bytes[1]),
          data2: Uint8Array.from(rows, ({ bytes }) => bytes[2]),
        },
        sysex,
        ports: [{ from: 0, port: 0 }],
        end: events.at(-1)?.tick ?? 0,
        damage: null,
      },
    ],
    missingTracks: 0,
    findings: [],
  };
};
