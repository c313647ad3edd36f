import { parseMidi, type MidiEvent } from 'midi-file';

/**
 * What the tracks of the demo reach in its SFZ instruments by the letter: rules of these four
 * instruments written down by hand, not read from their files. Every cue begins as its instrument is
 * set up; sounds are named by their files.
 */
export interface Cue {
  /** By track name. */
  readonly tracks: ReadonlyMap<string, readonly MidiEvent[]>;
}

export const readCue = (bytes: Uint8Array): Cue => ({
  tracks: new Map(
    parseMidi(bytes).tracks.map((events) => {
      const [name] = events;
      return [name?.type === 'trackName' ? name.text : '', events];
    }),
  ),
});

/** A note as it sounds: the modulation wheel passes everything between its ends. */
interface Sounding {
  readonly key: number;
  readonly isTremolo: boolean;
  lo: number;
  hi: number;
}

/** The sample of a key: `step` keys from `lowest` up share one, recorded `centre` keys up. */
const at = (key: number, lowest: number, step: number, centre: number): string =>
  String(lowest + step * Math.floor((key - lowest) / step) + centre).padStart(3, '0');

const isOn = (event: MidiEvent): event is MidiEvent & { type: 'noteOn' } =>
  event.type === 'noteOn' && event.velocity > 0;
const isOff = (event: MidiEvent): event is MidiEvent & { type: 'noteOff' | 'noteOn' } =>
  event.type === 'noteOff' || (event.type === 'noteOn' && event.velocity === 0);

/**
 * Keys 41 to 88. The last of the keys 24 to 27 chooses sustained (24, from the start), tremolo (25),
 * plucked (26) or nothing (27). The wheel stands at 64.
 */
export const chamberReach = (events: readonly MidiEvent[]): ReadonlySet<string> => {
  const reached = new Set<string>();
  let [chosen, wheel] = [24, 64];
  let sounding: Sounding[] = [];
  const end = ({ key, isTremolo, lo, hi }: Sounding): void => {
    const add = (name: string): void => void reached.add(`${name}-${at(key, 41, 4, 1)}.wav`);
    if (isTremolo) {
      if (lo < 72) add('trem-p');
      if (hi > 56) add('trem-f');
      return;
    }
    if (lo < 52) add('sus-p');
    if (hi > 36 && lo < 100) add('sus-mf');
    if (hi > 84) add('sus-f');
  };
  for (const event of events) {
    if (event.type === 'controller' && event.controllerType === 1) {
      wheel = event.value;
      for (const note of sounding) {
        note.lo = Math.min(note.lo, wheel);
        note.hi = Math.max(note.hi, wheel);
      }
    } else if (isOn(event)) {
      const { noteNumber: key, velocity } = event;
      if (key >= 24 && key <= 27) chosen = key;
      else if (chosen === 26) {
        const layer = velocity <= 72 ? 'p' : 'f';
        for (const take of ['rr1', 'rr2']) {
          reached.add(`pizz-${layer}-${at(key, 41, 6, 2)}-${take}.wav`);
        }
      } else if (chosen !== 27) {
        sounding.push({ key, isTremolo: chosen === 25, lo: wheel, hi: wheel });
      }
    } else if (isOff(event)) {
      const { noteNumber: key } = event;
      sounding.filter((note) => note.key === key).forEach(end);
      sounding = sounding.filter((note) => note.key !== key);
      // The bow leaves the string where sustained is chosen then, however the note began.
      if (chosen === 24 && key >= 41) reached.add(`off-${at(key, 41, 6, 2)}.wav`);
    }
  }
  return reached;
};

/** Keys 50 to 85; the wheel stands at 0. */
export const clarinetReach = (events: readonly MidiEvent[]): ReadonlySet<string> => {
  const reached = new Set<string>();
  let wheel = 0;
  let before: number | null = null;
  let sounding: Sounding[] = [];
  for (const event of events) {
    if (event.type === 'controller' && event.controllerType === 1) {
      wheel = event.value;
      for (const note of sounding) {
        note.lo = Math.min(note.lo, wheel);
        note.hi = Math.max(note.hi, wheel);
      }
    } else if (isOn(event)) {
      const { noteNumber: key } = event;
      const step = key - (before ?? -100);
      if (sounding.length === 0) reached.add(`tongue-${at(key, 50, 3, 1)}.wav`);
      else if (step !== 0 && Math.abs(step) <= 4) {
        const movement = `${step < 0 ? 'down' : 'up'}${String(Math.abs(step))}`;
        reached.add(`${movement}-${at(key, 50, 6, 2)}.wav`);
      }
      before = key;
      sounding.push({ key, isTremolo: false, lo: wheel, hi: wheel });
    } else if (isOff(event)) {
      const { noteNumber: key } = event;
      for (const { lo, hi } of sounding.filter((note) => note.key === key)) {
        if (lo < 80) reached.add(`tone-p-${at(key, 50, 3, 1)}.wav`);
        if (hi > 60) reached.add(`tone-f-${at(key, 50, 3, 1)}.wav`);
      }
      sounding = sounding.filter((note) => note.key !== key);
      reached.add(`key-${at(key, 50, 12, 5)}.wav`);
    }
  }
  return reached;
};

/** Soft up to velocity 80; all takes; the hand (44) makes no sound. */
export const deckReach = (events: readonly MidiEvent[]): ReadonlySet<string> =>
  new Set(
    events.filter(isOn).flatMap(({ noteNumber: key, velocity }) => {
      const force = velocity <= 80 ? 'soft' : 'hard';
      const takes = (name: string, count: number, ending: string): readonly string[] =>
        Array.from({ length: count }, (_, i) => `${name} ${String(i + 1)}.${ending}`);
      if (key === 36) return takes(`barrel ${force}`, 3, 'wav');
      if (key === 38) return takes(`plank ${force}`, 2, 'wav');
      if (key === 42) return takes('shaker', 4, 'wav');
      if (key === 46) return takes('chain', 2, 'flac');
      if (key === 56) return [`bell ${force}.aif`];
      return [];
    }),
  );

/** Keys 33 to 95, soft up to velocity 76, dampers up to key 92; the pedal is up. */
export const uprightReach = (events: readonly MidiEvent[]): ReadonlySet<string> => {
  const reached = new Set<string>();
  let pedal = 0;
  let caught: number[] = [];
  const damp = (key: number): void => {
    if (key <= 92) reached.add(`damper-${at(key, 33, 12, 5)}.wav`);
  };
  for (const event of events) {
    if (event.type === 'controller' && event.controllerType === 64) {
      pedal = event.value;
      reached.add(pedal >= 64 ? 'pedal-down.wav' : 'pedal-up.wav');
      if (pedal > 0) continue;
      caught.forEach(damp);
      caught = [];
    } else if (isOn(event)) {
      const { noteNumber: key, velocity } = event;
      reached.add(`${velocity <= 76 ? 'soft' : 'hard'}-${at(key, 33, 7, 3)}.wav`);
      if (pedal >= 64) reached.add(`ring-${at(key, 33, 21, 10)}.wav`);
    } else if (isOff(event)) {
      if (pedal > 0) caught.push(event.noteNumber);
      else damp(event.noteNumber);
    }
  }
  return reached;
};
