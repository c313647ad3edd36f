import { writeMidi, type MidiEvent } from 'midi-file';

/** An event at an absolute tick, 480 to the quarter, 120 quarters a minute. Channels count from 0. */
export interface Timed {
  readonly tick: number;
  readonly event: MidiEvent;
}

/** Events that belong together, to any depth; written in order of their ticks or not. */
export type Phrase = Timed | readonly Phrase[];

/** A small cue of the suite. */
export interface SuiteCue {
  readonly name: string;
  readonly bytes: Uint8Array;
  /**
   * What FluidSynth 2.3.1 plays of it on the counting bank, measured: the preset of each note as
   * `bank:program`, in the order in which they start. Device id 16, bank select gs.
   */
  readonly plays: string;
}

const quarter = 480;

const at = (tick: number, event: MidiEvent): Timed => ({ tick, event });

export const on = (tick: number, channel: number, noteNumber: number, velocity = 90): Timed =>
  at(tick, { deltaTime: 0, type: 'noteOn', channel, noteNumber, velocity });

export const off = (tick: number, channel: number, noteNumber: number): Timed =>
  at(tick, { deltaTime: 0, type: 'noteOff', channel, noteNumber, velocity: 64 });

export const control = (tick: number, channel: number, number: number, value: number): Timed =>
  at(tick, { deltaTime: 0, type: 'controller', channel, controllerType: number, value });

export const program = (tick: number, channel: number, programNumber: number): Timed =>
  at(tick, { deltaTime: 0, type: 'programChange', channel, programNumber });

export const bend = (tick: number, channel: number, value: number): Timed =>
  at(tick, { deltaTime: 0, type: 'pitchBend', channel, value });

/** A system exclusive message, given without its F0 and F7. */
export const exclusive = (tick: number, ...bytes: readonly number[]): Timed =>
  at(tick, { deltaTime: 0, type: 'sysEx', data: Uint8Array.from([...bytes, 0xf7]) });

/** A note of an eighth. */
export const note = (tick: number, channel: number, key: number, velocity = 90): Phrase => [
  on(tick, channel, key, velocity),
  off(tick + quarter / 2, channel, key),
];

const flat = (phrase: Phrase): readonly Timed[] =>
  'tick' in phrase ? [phrase] : phrase.flatMap(flat);

const trackOf = (phrase: Phrase): MidiEvent[] => {
  // Stable: what stands on one tick stays in the order in which it is written.
  const sorted = [...flat(phrase)].sort((a, b) => a.tick - b.tick);
  let last = 0;
  const track = sorted.map(({ tick, event }) => {
    const deltaTime = tick - last;
    last = tick;
    return { ...event, deltaTime };
  });
  return [...track, { deltaTime: quarter, meta: true, type: 'endOfTrack' }];
};

/** A cue of one track (format 0), or of several (format 1). */
export const cue = (name: string, plays: string, ...tracks: readonly Phrase[]): SuiteCue => ({
  name,
  plays,
  bytes: Uint8Array.from(
    writeMidi({
      header: { format: tracks.length === 1 ? 0 : 1, numTracks: tracks.length, ticksPerBeat: 480 },
      tracks: tracks.map(trackOf),
    }),
  ),
});
