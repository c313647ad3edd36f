import type { PortRun, Score, Track } from '../../midi/score.ts';
import type { LaneMessage, PrimingStep } from '../lanes.ts';

/** Ticks a second of the score made here: 480 a quarter note at 120. */
export const ticksPerSecond = 960;

/** Steps one after another as a score, and the tick at which each begins. */
export const stepsScore = (
  steps: readonly PrimingStep[],
  tracks: number,
): { readonly score: Score; readonly begins: readonly number[] } => {
  const rows = Array.from({ length: tracks }, () => [] as (readonly [number, LaneMessage])[]);
  const begins: number[] = [];
  let tick = 1;
  for (const { messages, seconds } of steps) {
    begins.push(tick);
    for (const message of messages) {
      const at = tick + Math.round(message.seconds * ticksPerSecond);
      rows[message.lane.track]!.push([at, message]);
    }
    tick += Math.ceil(seconds * ticksPerSecond);
  }
  const timeline = {
    division: { kind: 'metrical', ticksPerQuarter: 480 },
    tempo: [{ tick: 0, microsecondsPerQuarter: 500_000 }],
    meter: [{ tick: 0, beats: 4, unit: 4 }],
    markers: [],
    smpteOffset: null,
    timecode: null,
  } as const;
  const score: Score = {
    format: 1,
    timelines: [timeline],
    tracks: rows.map((own, index) => trackOf(index, own, tick)),
    missingTracks: 0,
    findings: [],
  };
  return { score, begins };
};

const trackOf = (
  index: number,
  rows: readonly (readonly [number, LaneMessage])[],
  end: number,
): Track => {
  const ports: PortRun[] = [];
  rows.forEach(([, { lane }], from) => {
    if (ports.at(-1)?.port !== lane.port) ports.push({ from, port: lane.port });
  });
  return {
    index,
    name: null,
    instrumentName: null,
    deviceName: null,
    timeline: 0,
    events: {
      length: rows.length,
      tick: Float64Array.from(rows, ([tick]) => tick),
      status: Uint8Array.from(rows, ([, { status }]) => status),
      data1: Uint8Array.from(rows, ([, { data1 }]) => data1),
      data2: Uint8Array.from(rows, ([, { data2 }]) => data2),
    },
    sysex: [],
    ports: ports.length === 0 ? [{ from: 0, port: 0 }] : ports,
    end,
    damage: null,
  };
};
