import { chord, nearest, type Bar, type Sketch, type Span } from './sketch.ts';
import type { TrackDraft } from './track-draft.ts';

/** Tonic and fifth on the strong beats, and a roll that grows through the last bar of each phrase. */
export const timpani = (
  track: TrackDraft,
  plan: Sketch,
  bars: readonly Bar[],
  span: Span,
): void => {
  for (const bar of bars) {
    const root = nearest(span[0] + 4, [chord(plan, bar.chord)[0]!], span);
    if (!bar.closes) {
      track.note(bar.tick, bar.beat, root, bar.loud + track.dice.whole(-4, 6));
      continue;
    }
    const stroke = bar.beat / 8;
    const strokes = bar.length / stroke;
    for (let index = 0; index < strokes; index++) {
      const velocity = bar.loud - 26 + (30 * index) / strokes + track.dice.whole(-3, 3);
      track.note(bar.tick + index * stroke, stroke - 6, root, velocity);
    }
  }
};

/** One line of a drum pattern: a percussion key, the places in a bar in felt beats, and its level. */
export interface Groove {
  readonly key: number;
  readonly beats: readonly number[];
  readonly above: number;
  /** Plays only every so many bars. */
  readonly every?: number;
}

export const groove = (track: TrackDraft, bars: readonly Bar[], lines: readonly Groove[]): void => {
  bars.forEach((bar, index) => {
    for (const { key, beats, above, every = 1 } of lines) {
      if (index % every !== 0) continue;
      for (const beat of beats) {
        const tick = bar.tick + Math.round(beat * bar.beat);
        if (tick >= bar.tick + bar.length) continue;
        track.note(tick, 60, key, bar.loud + above + track.dice.whole(-6, 6));
      }
    }
  });
};
