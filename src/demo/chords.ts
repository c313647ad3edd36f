import { chord, closest, keysOf, type Bar, type Sketch, type Span } from './sketch.ts';
import type { TrackDraft } from './track-draft.ts';

export interface PadStyle {
  /** Must hold more notes of every chord than there are voices. */
  readonly span: Span;
  readonly voices: number;
  readonly above?: number;
}

/** Held chords, one a bar, each voice going to the nearest note of the next; dynamics by controller 1. */
export const pad = (
  track: TrackDraft,
  plan: Sketch,
  bars: readonly Bar[],
  { span, voices, above = 0 }: PadStyle,
): void => {
  let keys = Array.from(
    { length: voices },
    (_, voice) => span[0] + ((span[1] - span[0]) * (voice + 0.5)) / voices,
  );
  for (const bar of bars) {
    const next = led(keys, chord(plan, bar.chord), span);
    const moves = next.some((key, voice) => key !== keys[voice]);
    for (const key of next) {
      const velocity = bar.loud + above + track.dice.whole(-5, 5);
      track.note(bar.tick, bar.length + (moves ? 24 : -12), key, velocity);
    }
    keys = next;
    track.swell(1, bar.tick, bar.tick + bar.length, [46, Math.min(112, bar.loud + 22)]);
  }
  ride(track, bars);
};

/** Where each voice goes: the nearest note of the chord that no other voice has taken. */
const led = (from: readonly number[], classes: readonly number[], span: Span): number[] => {
  const free = [...keysOf(classes, span)];
  return from.map((key) => {
    const choice = closest(key, free);
    free.splice(free.indexOf(choice), 1);
    return choice;
  });
};

/** A slow ride of the volume fader over the bars. */
const ride = (track: TrackDraft, bars: readonly Bar[]): void => {
  const [first, last] = [bars[0]!, bars.at(-1)!];
  track.glide(7, first.tick, last.tick + last.length, 88, 104);
};

export interface FigureStyle {
  readonly span: Span;
  /** Notes in a felt beat. */
  readonly perBeat: number;
  readonly above?: number;
  /** Holds the sustain pedal through each bar. */
  readonly pedal?: boolean;
}

/** Broken chords up and down. */
export const arpeggio = (
  track: TrackDraft,
  plan: Sketch,
  bars: readonly Bar[],
  { span, perBeat, above = 0, pedal = false }: FigureStyle,
): void => {
  for (const bar of bars) {
    const classes = chord(plan, bar.chord);
    const ladder = keysOf(classes, span);
    const step = bar.beat / perBeat;
    const turn = Math.max(1, ladder.length - 1);
    const start = track.dice.whole(0, Math.min(2, turn));
    for (let index = 0; index * step < bar.length; index++) {
      const place = (start + index) % (2 * turn);
      const key = ladder[place <= turn ? place : 2 * turn - place]!;
      const velocity =
        bar.loud + above + (index % perBeat === 0 ? 5 : -4) + track.dice.whole(-6, 6);
      track.note(bar.tick + index * step, Math.round(step * 1.1), key, velocity);
    }
    if (pedal) {
      track.controller(bar.tick + 30, 64, 127);
      track.controller(bar.tick + bar.length - 20, 64, 0);
    }
  }
};

export interface PulseStyle extends FigureStyle {
  readonly voices: number;
  /** Part of the step that sounds. */
  readonly sounding: number;
  /** Leaves out the notes on the beats. */
  readonly offBeatsOnly?: boolean;
}

/** Repeated short chords, accented on the beats or only between them. */
export const pulse = (
  track: TrackDraft,
  plan: Sketch,
  bars: readonly Bar[],
  { span, perBeat, voices, sounding, above = 0, offBeatsOnly = false }: PulseStyle,
): void => {
  for (const bar of bars) {
    const ladder = keysOf(chord(plan, bar.chord), span);
    const step = bar.beat / perBeat;
    const low = track.dice.whole(0, Math.max(0, ladder.length - voices));
    for (let index = 0; index * step < bar.length; index++) {
      const accent = index % perBeat === 0;
      if (accent && offBeatsOnly) continue;
      for (const key of ladder.slice(low, low + voices)) {
        const velocity = bar.loud + above + (accent ? 12 : -3) + track.dice.whole(-5, 5);
        track.note(bar.tick + index * step, Math.round(step * sounding), key, velocity);
      }
    }
  }
};

/** A few single high notes here and there. */
export const sparkle = (
  track: TrackDraft,
  plan: Sketch,
  bars: readonly Bar[],
  span: Span,
): void => {
  for (const bar of bars) {
    const ladder = keysOf(chord(plan, bar.chord), span);
    for (const beat of [0.5, 1, 1.5]) {
      if (track.dice.next() < 0.45) continue;
      const velocity = bar.loud + track.dice.whole(-10, 8);
      track.note(bar.tick + beat * bar.beat, bar.beat, track.dice.pick(ladder), velocity);
    }
  }
};
