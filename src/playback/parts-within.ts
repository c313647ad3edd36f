import { eventsOf, type Part } from '../midi/parts.ts';
import type { Score } from '../midi/score.ts';
import { cueFinder, secondsInto, type Stretch, type Stretches } from '../midi/stretches.ts';
import type { Clock } from '../midi/timeline.ts';

/**
 * The parts of each cue that a file holds, counted as if nothing else were in the file: parts without
 * an event in a cue are none of its parts.
 *
 * @param cues what of the file each is
 */
export const partsWithin = (
  score: Score,
  parts: readonly Part[],
  cues: readonly Stretches[],
): readonly (readonly Part[])[] => {
  const cueAt = cueFinder(cues);
  const all = cues.map((): Part[] => []);
  for (const part of parts) {
    const { tick, status, data2 } = score.tracks[part.track]!.events;
    const own: (Part | undefined)[] = [];
    for (const event of eventsOf(score, part)) {
      const at = tick[event]!;
      const cue = cueAt(at);
      if (cue < 0) continue;
      const isNote = status[event]! >> 4 === 0x9 && data2[event]! > 0;
      const { events, notes, firstTick } = own[cue] ?? { events: 0, notes: 0, firstTick: at };
      own[cue] = {
        ...part,
        events: events + 1,
        notes: notes + Number(isNote),
        firstTick,
        lastTick: at,
      };
    }
    own.forEach((one, cue) => {
      if (one !== undefined) all[cue]!.push(one);
    });
  }
  return all;
};

/**
 * Seconds from the beginning of a cue to the end of its last note. What still sounds at the end of a
 * stretch sounds as long as the stretch.
 *
 * @param parts those of the cue
 */
export const musicWithin = (
  score: Score,
  parts: readonly Part[],
  stretches: Stretches,
  clock: Clock,
): number => {
  let last = 0;
  for (const part of parts) {
    if (part.notes === 0) continue;
    for (const stretch of stretches ?? []) {
      const end = lastSound(score, part, stretch);
      if (end !== null) last = Math.max(last, secondsInto(stretches, clock, end));
    }
  }
  return Math.round(last * 1000) / 1000;
};

/** The tick at which a part's last note in a stretch ends; null where it has none. */
const lastSound = (score: Score, part: Part, { from, to }: Stretch): number | null => {
  const { tick, status, data1, data2 } = score.tracks[part.track]!.events;
  const down = new Set<number>();
  let last: number | null = null;
  for (const event of eventsOf(score, part)) {
    const at = tick[event]!;
    // A note that ends where the next cue begins ends here.
    if (to !== null && at > to) break;
    const kind = status[event]! >> 4;
    if (kind > 0x9) continue;
    const strikes = kind === 0x9 && data2[event]! > 0;
    if (strikes && at === to) continue;
    if (strikes) down.add(data1[event]!);
    else down.delete(data1[event]!);
    if (at > from || strikes) last = at >= from ? at : last;
  }
  return to !== null && down.size > 0 ? to : last;
};
