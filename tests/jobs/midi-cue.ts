import { writeMidi, type MidiEvent } from 'midi-file';

/** A note of a track: it ends at `tick` + `length`. */
export interface CueNote {
  readonly tick: number;
  readonly length: number;
  readonly key: number;
  readonly velocity: number;
}

export interface CueTrack {
  readonly name: string;
  /** From 0. */
  readonly channel?: number;
  readonly notes: readonly CueNote[];
}

type Placed = readonly [tick: number, rank: number, event: MidiEvent];

const trackEvents = ({ name, channel = 0, notes }: CueTrack): MidiEvent[] => {
  const placed = notes.flatMap(({ tick, length, key, velocity }): Placed[] => {
    const note = { deltaTime: 0, channel, noteNumber: key };
    return [
      [tick, 1, { ...note, type: 'noteOn', velocity }],
      [tick + length, 0, { ...note, type: 'noteOff', velocity: 64 }],
    ];
  });
  let last = 0;
  return [
    { deltaTime: 0, meta: true, type: 'trackName', text: name },
    ...placed
      .sort((a, b) => a[0] - b[0] || a[1] - b[1])
      .map(([tick, , event]): MidiEvent => {
        const deltaTime = tick - last;
        last = tick;
        return { ...event, deltaTime };
      }),
    { deltaTime: 0, meta: true, type: 'endOfTrack' },
  ];
};

/** A format 1 file of these tracks, 480 ticks a quarter, written by an independent library. */
export const cueBytes = (tracks: readonly CueTrack[]): Uint8Array =>
  Uint8Array.from(
    writeMidi({
      header: { format: 1, numTracks: tracks.length, ticksPerBeat: 480 },
      tracks: tracks.map(trackEvents),
    }),
  );
