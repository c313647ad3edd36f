/** Starts by the end of a note: with its key, with its pedals, or because something cuts it. */
import { doubtBits, plain } from './doubts.ts';
import { isController, isNoteOn, type SfzCue, type SfzStart } from './sfz-data.ts';
import { soundsAt, type PedalHistory } from './sfz-pedals.ts';
import type { Moment } from './sfz-signals.ts';
import { strikesOf, type Strike } from './sfz-strikes.ts';

const { engine, pedalHeld } = doubtBits;

export interface StartEvent {
  readonly why: SfzStart['why'];
  readonly moment: Moment;
  /** 0-15; of the note-on, for what is released. */
  readonly channel: number;
  /** null: started by a controller. */
  readonly key: number | null;
  readonly velocity: number | null;
  /** Index of the note-on whose note ends. */
  readonly note?: number;
  /** The key of a poly pressure message that starts the region. */
  readonly pressedKey?: number;
  /** What it takes for the event to be a start of the region, before any condition. */
  readonly doubts: number;
}

/** What a note gives to the region that its end starts. */
function ofNote(why: SfzStart['why'], note: Strike, cue: SfzCue, index: number, doubts: number) {
  const { channel, key, velocity, on } = note;
  return { why, moment: { events: cue.events, index }, channel, key, velocity, note: on, doubts };
}

/** All sound off ends notes as well, but an engine may let nothing start then. */
function allSoundOff({ events }: SfzCue, index: number): number {
  const event = events[index];
  return event !== undefined && isController(event, 120) ? engine : plain;
}

/** What still sounds at the end of the cue, by key or by pedal, ends with it. */
function endOf(cue: SfzCue, index: number | null): { index: number; doubts: number } {
  if (index === null) return { index: cue.events.length, doubts: pedalHeld };
  return { index, doubts: allSoundOff(cue, index) };
}

export function releaseStarts(histories: readonly PedalHistory[], cue: SfzCue): StartEvent[] {
  return histories.flatMap(({ notes, doubts }) =>
    notes.flatMap((note) =>
      note.releases.map((release) => {
        const end = endOf(cue, release.value);
        return ofNote('release', note, cue, end.index, doubts | release.doubts | end.doubts);
      }),
    ),
  );
}

/** Pedals have no say in when a key goes up. */
export function keyUpStarts(cue: SfzCue): StartEvent[] {
  return strikesOf(cue.events).flatMap(({ value, doubts }) =>
    value.map((strike) => {
      const end = endOf(cue, strike.keyUp);
      return ofNote('release-key', strike, cue, end.index, doubts | end.doubts);
    }),
  );
}

/** An engine may end a note when its key is struck again. */
export function strikeStarts({ notes, doubts }: PedalHistory, cue: SfzCue): StartEvent[] {
  return cue.events.flatMap((event, index) => {
    if (!isNoteOn(event)) return [];
    return notes
      .filter((note) => note.channel === event.channel && note.key === event.data1)
      .flatMap((note) =>
        soundsAt(note, index).map((more) =>
          ofNote('restrike', note, cue, index, doubts | more | engine),
        ),
      );
  });
}

/** What may cut a voice. */
export interface Cutter {
  readonly index: number;
  readonly doubts: number;
}

export function noteOns({ events }: SfzCue): Cutter[] {
  return events.flatMap((event, index) => (isNoteOn(event) ? [{ index, doubts: plain }] : []));
}

/**
 * Where regions cut others, an engine ends any note with any start; what a release starts may also cut
 * the voice that a pedal holds of its own note.
 */
export function cutStarts(
  { notes, doubts }: PedalHistory,
  cue: SfzCue,
  cutters: readonly Cutter[],
): StartEvent[] {
  return cutters.flatMap((cutter) =>
    notes.flatMap((note) =>
      soundsAt(note, cutter.index).map((more) =>
        ofNote('cut', note, cue, cutter.index, doubts | more | cutter.doubts | engine),
      ),
    ),
  );
}
