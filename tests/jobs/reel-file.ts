import { writeMidi, type MidiEvent } from 'midi-file';

/** An event on a tick of its cue. */
export type Placed = readonly [tick: number, event: Omit<MidiEvent, 'deltaTime'>];

/** A cue of a reel: events by track name, and how many ticks it takes. */
export interface ReelPiece {
  readonly marker: string;
  readonly length: number;
  readonly tracks: Readonly<Record<string, readonly Placed[]>>;
}

export const strike = (tick: number, key: number, velocity = 80): Placed => [
  tick,
  { type: 'noteOn', channel: 0, noteNumber: key, velocity } as never,
];

export const lift = (tick: number, key: number): Placed => [
  tick,
  { type: 'noteOff', channel: 0, noteNumber: key, velocity: 64 } as never,
];

export const turn = (tick: number, controllerType: number, value: number): Placed => [
  tick,
  { type: 'controller', channel: 0, controllerType, value } as never,
];

const mark = (tick: number, text: string): Placed => [tick, { type: 'marker', text } as never];

/**
 * Cues one after the other in one file of format 1, 480 ticks a quarter; the first track holds a marker
 * where each begins. Written by an independent library. Events of one tick keep their order.
 */
export const reelFile = (
  pieces: readonly ReelPiece[],
  { markers = true, opening = [] }: { markers?: boolean; opening?: readonly Placed[] } = {},
): Uint8Array => {
  const names = [...new Set(pieces.flatMap(({ tracks }) => Object.keys(tracks)))];
  const starts = pieces.map((_, i) =>
    pieces.slice(0, i).reduce((sum, { length }) => sum + length, 0),
  );
  const end = starts.at(-1)! + pieces.at(-1)!.length;
  const moved = (name: string): readonly Placed[] =>
    pieces.flatMap(({ tracks }, i) =>
      (tracks[name] ?? []).map(([tick, event]): Placed => [tick + starts[i]!, event]),
    );
  const track = (name: string, events: readonly Placed[]): MidiEvent[] => {
    const ordered = [...events].sort(([a], [b]) => a - b);
    const last = Math.max(end, ordered.at(-1)?.[0] ?? 0);
    const all: readonly Placed[] = [
      [0, { type: 'trackName', text: name } as never],
      ...ordered,
      [last, { type: 'endOfTrack' } as never],
    ];
    return all.map(
      ([tick, event], i) => ({ ...event, deltaTime: tick - (all[i - 1]?.[0] ?? 0) }) as MidiEvent,
    );
  };
  const conductor = markers ? pieces.map(({ marker }, i) => mark(starts[i]!, marker)) : [];
  const tracks = [
    track('Conductor', [...opening, ...conductor]),
    ...names.map((name) => track(name, moved(name))),
  ];
  const header = { format: 1, numTracks: tracks.length, ticksPerBeat: 480 } as const;
  return Uint8Array.from(writeMidi({ header, tracks }));
};
