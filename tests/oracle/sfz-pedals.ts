/**
 * When notes end: with their key, or with the last pedal that holds them. A region has pedals of its
 * own, and every reading of pedals plays the cue once by itself.
 */
import { doubtBits, plain } from './doubts.ts';
import { isController, isNoteOff, isNoteOn, liftsAllKeys, type SfzEvent } from './sfz-data.ts';
import { integer, real, type OracleInstrument, type OracleRegion } from './sfz-regions.ts';
import { firstValue, resetReadings, type ResetReading } from './sfz-signals.ts';

export interface PlayedNote {
  readonly channel: number;
  readonly key: number;
  readonly velocity: number;
  /** Index of the note-on. */
  readonly on: number;
  /** When the key went up; null: not before the cue ends. Pedals ignored. */
  keyUp: number | null;
  /** When no key and no pedal held it any more; null: not before the cue ends. */
  release: number | null;
}

/** One reading of the pedals, and what became of every note of the cue in it. */
export interface PedalHistory {
  readonly doubts: number;
  readonly notes: readonly PlayedNote[];
}

interface Pedal {
  readonly controller: number;
  /** It is down from this value on; Infinity: the region has no such pedal. */
  readonly threshold: number;
  down: boolean;
}

/** All six readings: the threshold as given, or 64; times three readings of controller 121. */
export function pedalHistories(
  instrument: OracleInstrument,
  region: OracleRegion,
  events: readonly SfzEvent[],
): PedalHistory[] {
  return [null, 64].flatMap((threshold) =>
    resetReadings.map((reading) => ({
      doubts: threshold === null && reading === 'rp-015' ? plain : doubtBits.engine,
      notes: playNotes(
        events,
        pedalOf(instrument, region, 'sustain', 64, threshold),
        pedalOf(instrument, region, 'sostenuto', 66, threshold),
        reading,
      ),
    })),
  );
}

function pedalOf(
  instrument: OracleInstrument,
  region: OracleRegion,
  name: 'sustain' | 'sostenuto',
  usual: number,
  otherThreshold: number | null,
): Pedal {
  const off = ['off', '0'].includes(region.opcodes.get(`${name}_sw`)?.toLowerCase() ?? 'on');
  const controller = integer(region, `${name}_cc`) ?? usual;
  const threshold = off ? Infinity : (otherThreshold ?? real(region, `${name}_lo`) ?? 0.5);
  return { controller, threshold, down: firstValue(instrument, controller) >= threshold };
}

function playNotes(
  events: readonly SfzEvent[],
  sustain: Pedal,
  sostenuto: Pedal,
  reading: ResetReading,
): PlayedNote[] {
  const notes: PlayedNote[] = [];
  let caught: PlayedNote[] = [];
  const isHeld = (note: PlayedNote) => note.keyUp === null;

  events.forEach((event, index) => {
    const { channel, data1: key, data2: velocity } = event;
    if (isNoteOn(event))
      notes.push({ channel, key, velocity, on: index, keyUp: null, release: null });
    if (isNoteOff(event)) {
      const ended = notes.find((n) => n.channel === channel && n.key === key && isHeld(n));
      if (ended !== undefined) ended.keyUp = index;
    }
    if (liftsAllKeys(event)) {
      for (const note of notes) if (note.channel === channel && isHeld(note)) note.keyUp = index;
    }

    const wasDown = sostenuto.down;
    for (const pedal of [sustain, sostenuto]) {
      if (isController(event, pedal.controller)) pedal.down = event.data2 >= pedal.threshold;
      if (!isController(event, 121)) continue;
      // By RP-015 the pedals themselves go up; what a region uses as a pedal instead is left alone.
      if (reading === 'all') pedal.down = false;
      if (reading === 'rp-015' && [64, 66].includes(pedal.controller)) pedal.down = false;
    }
    if (!wasDown && sostenuto.down) caught = notes.filter(isHeld);
    if (!sostenuto.down) caught = [];

    for (const note of notes) {
      const holds = isHeld(note) || sustain.down || caught.includes(note);
      if (note.release === null && !holds) note.release = index;
    }
  });
  return notes;
}

/** Whether a note still sounds when an event comes. */
export function soundsAt(note: PlayedNote, index: number): boolean {
  return note.on < index && (note.release === null || note.release > index);
}
