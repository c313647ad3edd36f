import { writeMidi, type MidiEvent } from 'midi-file';
import { barsOf, quarter, tempos, type Sketch } from './sketch.ts';
import { inOrder, type Placed, type Placeless, type TrackDraft } from './track-draft.ts';

export interface Cue {
  /** Also the name of the file. */
  readonly title: string;
  readonly plan: Sketch;
  readonly tracks: readonly TrackDraft[];
  /** A GM System On message at the very start (General MIDI System Level 1). */
  readonly systemOn?: boolean;
  /** How the exporter writes endings: note-off, or note-on with velocity 0. */
  readonly endings: 'note-off' | 'velocity-0';
}

/** The Standard MIDI File of a cue: format 1, tempo, meter and markers in track 0. */
export const cueFile = (cue: Cue): Uint8Array => {
  const tracks = [
    track(cue.title, conductor(cue), cue.plan.end),
    ...cue.tracks.map((draft) => track(draft.name, draft.events(), cue.plan.end)),
  ];
  const header = { format: 1, numTracks: tracks.length, ticksPerBeat: quarter } as const;
  return Uint8Array.from(
    writeMidi(
      { header, tracks },
      { running: true, useByte9ForNoteOff: cue.endings === 'velocity-0' },
    ),
  );
};

const track = (name: string, events: readonly Placed[], end: number): MidiEvent[] => {
  let tick = 0;
  const opening: readonly Placed[] = [
    { tick: 0, rank: -1, event: { type: 'trackName', text: utf8(name) } },
    { tick: 0, rank: -1, event: { type: 'portPrefix', port: 0 } },
  ];
  const closing: Placed = { tick: end, rank: 9, event: { type: 'endOfTrack' } };
  return [...opening, ...events, closing].map((placed) => {
    const deltaTime = placed.tick - tick;
    ({ tick } = placed);
    return { ...placed.event, deltaTime };
  });
};

const conductor = ({ title, plan, systemOn }: Cue): readonly Placed[] => {
  const at = (tick: number, event: Placeless): Placed => ({ tick, rank: 0, event });
  const hour = Number(title.charAt(0));
  const system: Placeless = { type: 'sysEx', data: [0x7e, 0x7f, 0x09, 0x01, 0xf7] };
  return inOrder([
    at(0, { type: 'copyrightNotice', text: 'Invented for the keepset demo' }),
    at(0, { type: 'smpteOffset', frameRate: 25, hour, min: 0, sec: 0, frame: 0, subFrame: 0 }),
    at(0, keySignature(plan)),
    ...(systemOn === true ? [at(0, system)] : []),
    ...plan.sections.flatMap((section, index) => {
      const { tick } = barsOf(plan, index)[0]!;
      const [numerator, denominator] = section.meter;
      const metronome = denominator === 8 ? 36 : 24;
      return [
        at(tick, { type: 'marker', text: utf8(section.name) }),
        at(index === 0 ? 0 : tick, {
          ...{ type: 'timeSignature', numerator, denominator, metronome, thirtyseconds: 8 },
        }),
      ];
    }),
    ...tempos(plan).map(([tick, microsecondsPerBeat]) =>
      at(tick, { type: 'setTempo', microsecondsPerBeat }),
    ),
  ]);
};

/** Sharps, or flats below zero, of the major keys from C upwards by semitones. */
const sharps = [0, -5, 2, -3, 4, -1, 6, 1, -4, 3, -2, 5];

const keySignature = ({ tonic, minor }: Sketch): Placeless => ({
  type: 'keySignature',
  key: sharps[(tonic + (minor ? 3 : 0)) % 12]!,
  scale: minor ? 1 : 0,
});

/** Text as the bytes of UTF-8, one character each: the writer puts one byte per character. */
const utf8 = (text: string): string => String.fromCharCode(...new TextEncoder().encode(text));
