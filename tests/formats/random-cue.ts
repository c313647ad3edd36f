import fc from 'fast-check';
import { writeMidi, type MidiEvent } from 'midi-file';
import { fadeControllers, keySpan, switchKeys } from './random-model.ts';

/** What cues hold beside notes of the instrument's keys. */
export interface CueOptions {
  readonly switches: boolean;
  /** Controllers that fade, and both pedals. */
  readonly controllers: boolean;
  /** Legato, one note at a time, coarse tuning: what starts a note again, or elsewhere. */
  readonly modes: boolean;
  /** All sound off, all notes off, all controllers reset. */
  readonly resets: boolean;
  /** Ticks between the moments at which things happen. */
  readonly moment: number;
}

interface Placed {
  readonly tick: number;
  readonly event: Readonly<Record<string, unknown>> & { readonly type: string };
}

const key = ({ switches }: CueOptions): fc.Arbitrary<number> => {
  const played = fc.integer({ min: keySpan[0] - 1, max: keySpan[1] + 1 });
  return switches
    ? fc.oneof({ weight: 3, arbitrary: played }, fc.constantFrom(...switchKeys))
    : played;
};

const velocity = fc.oneof(fc.integer({ min: 1, max: 127 }), fc.constantFrom(1, 63, 64, 127));

/** Ticks of a note; null: it is still held at the end of the cue. */
const length = (moment: number): fc.Arbitrary<number | null> =>
  fc.oneof(
    { weight: 6, arbitrary: fc.constantFrom(...[0.5, 1, 3, 8].map((part) => part * moment)) },
    fc.constantFrom(0, null),
  );

const note = (options: CueOptions): fc.Arbitrary<readonly Placed[]> =>
  fc
    .record({
      key: key(options),
      velocity,
      length: length(options.moment),
      offs: fc.constantFrom('noteOff', 'noteOn'),
    })
    .map(({ key: noteNumber, velocity, length, offs }) => [
      { tick: 0, event: { type: 'noteOn', noteNumber, velocity } },
      // A note-on of velocity 0 is a note-off (MIDI 1.0, "Note-Off").
      ...(length === null
        ? []
        : [
            {
              tick: length,
              event: { type: offs, noteNumber, velocity: offs === 'noteOff' ? 64 : 0 },
            },
          ]),
    ]);

const controller = (number: number, value: number): Placed => ({
  tick: 0,
  event: { type: 'controller', controllerType: number, value },
});

const value = fc.oneof(fc.integer({ min: 0, max: 127 }), fc.constantFrom(0, 1, 63, 64, 127));

const messages = (numbers: readonly number[], values: fc.Arbitrary<number>) =>
  fc
    .tuple(fc.constantFrom(...numbers), values)
    .map((pair): readonly Placed[] => [controller(...pair)]);

/** Registered parameter 00 02 (MIDI 1.0, "Registered Parameter Numbers"), a few semitones. */
const tuning = fc
  .integer({ min: 62, max: 66 })
  .map((semitones): readonly Placed[] => [
    controller(101, 0),
    controller(100, 2),
    controller(6, semitones),
  ]);

const phrase = (options: CueOptions): fc.Arbitrary<readonly Placed[]> =>
  fc.oneof(
    { weight: 8, arbitrary: note(options) },
    ...(options.controllers
      ? [
          { weight: 4, arbitrary: messages(fadeControllers, value) },
          { weight: 3, arbitrary: messages([64, 66], value) },
        ]
      : []),
    ...(options.modes
      ? [
          { weight: 1, arbitrary: messages([68], fc.constantFrom(0, 127)) },
          // One channel in mono mode: more of them would be other tracks here.
          { weight: 1, arbitrary: messages([126], fc.constant(1)) },
          { weight: 1, arbitrary: messages([127], fc.constant(0)) },
          { weight: 1, arbitrary: tuning },
        ]
      : []),
    ...(options.resets
      ? [{ weight: 2, arbitrary: messages([120, 121, 123], fc.constant(0)) }]
      : []),
  );

/** Where a phrase begins: few moments, each of them also a few ticks late. */
const tick = (moment: number): fc.Arbitrary<number> =>
  fc.tuple(fc.nat(10), fc.constantFrom(0, 0, 0, 12)).map(([at, late]) => at * moment + late);

const track = (options: CueOptions): fc.Arbitrary<readonly Placed[]> =>
  fc
    .array(fc.tuple(tick(options.moment), phrase(options)), {
      minLength: 1,
      maxLength: 14,
      size: 'max',
    })
    .map((phrases) =>
      phrases
        .flatMap(([from, placed]) => placed.map((one) => ({ ...one, tick: from + one.tick })))
        .sort((a, b) => a.tick - b.tick),
    );

/** One or two tracks, each on a channel of its own. */
const cue = (options: CueOptions): fc.Arbitrary<Uint8Array> =>
  fc.array(track(options), { minLength: 1, maxLength: 2 }).map((tracks) => {
    const header = { format: 1, numTracks: tracks.length, ticksPerBeat: 480 } as const;
    return Uint8Array.from(writeMidi({ header, tracks: tracks.map(trackEvents) }));
  });

/** A format 1 cue of 480 ticks a beat, or two of them, by path. */
export const randomReel = (
  options: CueOptions,
  cues = 2,
): fc.Arbitrary<Readonly<Record<string, Uint8Array>>> =>
  fc
    .array(cue(options), { minLength: 1, maxLength: cues })
    .map((all) =>
      Object.fromEntries(all.map((bytes, i) => [`cues/1m${String(i + 1)}.mid`, bytes])),
    );

const trackEvents = (placed: readonly Placed[], channel: number): MidiEvent[] => {
  let last = 0;
  const events = placed.map(({ tick, event }) => {
    const deltaTime = tick - last;
    last = tick;
    return { ...event, deltaTime, channel } as unknown as MidiEvent;
  });
  return [
    { deltaTime: 0, meta: true, type: 'trackName', text: `Track ${String(channel + 1)}` },
    ...events,
    { deltaTime: 0, meta: true, type: 'endOfTrack' },
  ];
};
