import { chord, nearest, scale, type Bar, type Sketch, type Span } from './sketch.ts';
import type { TrackDraft } from './track-draft.ts';

/** Rhythms of a bar, in felt beats, by the number of felt beats in the bar. */
const rhythms: Readonly<Record<number, readonly (readonly number[])[]>> = {
  2: [
    [1, 1],
    [2 / 3, 1 / 3, 2 / 3, 1 / 3],
    [1, 2 / 3, 1 / 3],
    [4 / 3, 1 / 3, 1 / 3],
  ],
  3: [
    [2, 1],
    [1, 1, 1],
    [1.5, 0.5, 1],
    [1, 0.5, 0.5, 1],
  ],
  4: [
    [2, 1, 1],
    [1.5, 0.5, 2],
    [1, 1, 1, 1],
    [1, 0.5, 0.5, 1, 1],
    [3, 1],
  ],
};

export interface MelodyStyle {
  readonly span: Span;
  /** Ticks by which a note runs into the next: legato is drawn with overlaps. */
  readonly overlap: number;
  /** Added to the section's velocity. */
  readonly above?: number;
}

/**
 * A tune in phrases: chord notes on the beats, steps of the scale between them, a long last note and
 * a breath. Controllers 1 and 11 swell with each phrase.
 */
export const melody = (
  track: TrackDraft,
  plan: Sketch,
  bars: readonly Bar[],
  { span, overlap, above = 0 }: MelodyStyle,
): void => {
  const { dice } = track;
  const notes: { tick: number; length: number; key: number; velocity: number; breath: boolean }[] =
    [];
  let key = nearest((span[0] + span[1]) / 2, chord(plan, bars[0]!.chord), span);
  let upwards = true;
  let phrase = bars[0]!.tick;
  for (const bar of bars) {
    const beats = bar.length / bar.beat;
    const rhythm = bar.closes ? [beats - 0.5] : dice.pick(rhythms[beats]!);
    let tick = bar.tick;
    rhythm.forEach((share, index) => {
      const length = Math.round(share * bar.beat);
      const onBeat = (tick - bar.tick) % bar.beat === 0;
      if (key > span[1] - 3) upwards = false;
      else if (key < span[0] + 3) upwards = true;
      else if (dice.next() < 0.2) upwards = !upwards;
      const step = upwards ? 2 : -2;
      const wanted = key + (onBeat ? step * dice.whole(1, 2) : step);
      key = nearest(wanted, onBeat ? chord(plan, bar.chord) : scale(plan), span);
      const velocity = bar.loud + above + (index === 0 ? 6 : 0) + dice.whole(-7, 5);
      notes.push({ tick, length, key, velocity, breath: bar.closes });
      tick += length;
    });
    if (!bar.closes) continue;
    const [end, peak] = [bar.tick + bar.length, Math.min(118, bar.loud + 32)];
    track.swell(1, phrase, end, [58, peak], 2);
    track.swell(11, phrase, end, [64, peak]);
    phrase = end;
  }
  notes.forEach(({ tick, length, key: played, velocity, breath }, index) => {
    const joins = !breath && notes[index + 1]?.key !== played;
    track.note(tick, joins ? length + overlap : length - 15, played, velocity);
  });
};

/** Root and fifth underneath. */
export const bassLine = (
  track: TrackDraft,
  plan: Sketch,
  bars: readonly Bar[],
  span: Span,
): void => {
  for (const bar of bars) {
    const [root, , fifth] = chord(plan, bar.chord);
    const low = nearest(span[0] + 5, [root!], span);
    const first = bar.length > 2 * bar.beat ? 2 * bar.beat : bar.beat;
    track.note(bar.tick, first - 20, low, bar.loud + track.dice.whole(-4, 6));
    if (bar.length > first) {
      const high = nearest(low + 6, [fifth!], span);
      const rest = bar.length - first;
      track.note(bar.tick + first, rest - 30, high, bar.loud - 6 + track.dice.whole(-5, 4));
    }
  }
  const [first, last] = [bars[0]!, bars.at(-1)!];
  track.swell(11, first.tick, last.tick + last.length, [70, Math.min(116, first.loud + 34)]);
};
