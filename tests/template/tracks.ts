import { partsOf } from '../../src/midi/parts.ts';
import type { Part } from '../../src/midi/parts.ts';
import type { Score, Track } from '../../src/midi/score.ts';

/** A track by what routing looks at. */
export interface TrackSketch {
  readonly name?: string | null | undefined;
  /** Port, channel and kind of each event, in order; ports and channels from 1. */
  readonly events?: readonly (readonly [
    port: number,
    channel: number,
    kind?: 'note' | 'controller',
  ])[];
  /** For format 2. */
  readonly timeline?: number;
  readonly damaged?: boolean;
}

/** One note on port 1, channel 1. */
const oneNote: NonNullable<TrackSketch['events']> = [[1, 1]];

const trackOf = (
  { name = null, events = oneNote, timeline = 0, damaged = false }: TrackSketch,
  index: number,
): Track => ({
  index,
  name,
  instrumentName: null,
  deviceName: null,
  timeline,
  events: {
    length: events.length,
    tick: Float64Array.from(events, (_, i) => i),
    status: Uint8Array.from(
      events,
      ([, channel, kind]) => (kind === 'controller' ? 0xb0 : 0x90) + channel - 1,
    ),
    data1: Uint8Array.from(events, () => 60),
    data2: Uint8Array.from(events, () => 100),
  },
  sysex: [],
  ports:
    events.length === 0
      ? [{ from: 0, port: 0 }]
      : events.map(([port], from) => ({ from, port: port - 1 })),
  end: events.length,
  damage: damaged ? { tick: 0, byte: 0 } : null,
});

const timeline: Score['timelines'][number] = {
  division: { kind: 'metrical', ticksPerQuarter: 480 },
  tempo: [{ tick: 0, microsecondsPerQuarter: 500_000 }],
  meter: [{ tick: 0, beats: 4, unit: 4 }],
  markers: [],
  smpteOffset: null,
  timecode: null,
};

/** A score of such tracks, and its parts. */
export const scoreOf = (
  tracks: readonly TrackSketch[],
  missingTracks = 0,
): { readonly score: Score; readonly parts: readonly Part[] } => {
  const flows = Math.max(0, ...tracks.map((track) => track.timeline ?? 0)) + 1;
  const score: Score = {
    format: flows > 1 ? 2 : 1,
    timelines: Array.from({ length: flows }, () => timeline),
    tracks: tracks.map(trackOf),
    missingTracks,
    findings: [],
  };
  return { score, parts: partsOf(score) };
};
