import { writeMidi, type MidiEvent } from 'midi-file';
import { operators, range, writeBank, type BankPlan } from '../oracle/soundfont-bytes.ts';

type Placed = readonly [tick: number, event: Omit<MidiEvent, 'deltaTime'>];

/** A note of half a beat. Key 60 is middle C. */
export const note = (tick: number, key: number, velocity = 80): readonly Placed[] => [
  [tick, { type: 'noteOn', channel: 0, noteNumber: key, velocity } as never],
  [tick + 240, { type: 'noteOff', channel: 0, noteNumber: key, velocity: 64 } as never],
];

export const program = (tick: number, programNumber: number): readonly Placed[] => [
  [tick, { type: 'programChange', channel: 0, programNumber } as never],
];

export interface Part {
  readonly name: string;
  readonly events: readonly (readonly Placed[])[];
}

/** A cue of format 1, 480 ticks a beat, all on channel 1. Events of one tick keep their order. */
export const cue = (...parts: readonly Part[]): Uint8Array => {
  const tracks = parts.map(({ name, events }) => {
    const placed = events.flat().sort(([a], [b]) => a - b);
    const last = placed.at(-1)?.[0] ?? 0;
    const all: readonly Placed[] = [
      [0, { type: 'trackName', text: name } as never],
      ...placed,
      [last + 480, { type: 'endOfTrack' } as never],
    ];
    return all.map(([tick, event], i) => ({ ...event, deltaTime: tick - (all[i - 1]?.[0] ?? 0) }));
  });
  const header = { format: 1, numTracks: tracks.length, ticksPerBeat: 480 } as const;
  return Uint8Array.from(writeMidi({ header, tracks: tracks as MidiEvent[][] }));
};

/** Two notes of program 0: E4 and C3. */
export const plainCue = (): Uint8Array =>
  cue({ name: 'Keys', events: [program(0, 0), note(0, 64), note(480, 48)] });

/** A note of program 0, then the switch to program 48 on its tick, behind it in the file. */
export const doubtfulCue = (): Uint8Array =>
  cue({ name: 'Keys', events: [program(0, 0), note(480, 64), program(480, 48)] });

/** {@link plainCue} cut off in the middle of its last note. */
export const cutCue = (): Uint8Array => plainCue().subarray(0, -13);

const zone = (sampleId: number, low: number, high: number) => ({
  generators: [
    [operators.keyRange, range(low, high)],
    [operators.sampleId, sampleId],
  ] as const,
});

const preset = (name: string, programNumber: number, instrument: number) => ({
  name,
  bank: 0,
  program: programNumber,
  zones: [{ generators: [[operators.instrument, instrument]] as const }],
});

/** Programs 0 and 48, each of a zone below middle C and one from it up; a sample a zone. */
export const bankPlan: BankPlan = {
  presets: [preset('Keys', 0, 0), preset('Strings', 48, 1)],
  instruments: [
    { name: 'Keys', zones: [zone(0, 0, 59), zone(1, 60, 127)] },
    { name: 'Strings', zones: [zone(2, 0, 59), zone(3, 60, 127)] },
  ],
  samples: [
    { name: 'Keys low', frames: 100 },
    { name: 'Keys high', frames: 200 },
    { name: 'Strings low', frames: 400 },
    { name: 'Strings high', frames: 800 },
  ],
};

export const bank = (): Uint8Array => writeBank(bankPlan);
