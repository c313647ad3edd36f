import { clock } from '../midi/timeline.ts';
import { eventsOf, partsOf, type Part } from '../midi/parts.ts';
import type { Score } from '../midi/score.ts';
import type { PartNotes } from '../playback/note-usage.ts';
import { readTrackName } from './track-name.ts';

/** How often a part plays a key, and where first. */
export interface KeyPresses {
  readonly key: number;
  /** At least 1. */
  readonly count: number;
  readonly cue: string;
  /** From 1. */
  readonly bar: number;
  /** Cues as they were read, from 0: which of two first places is the first. */
  readonly order: number;
}

/** Which part it is within a file; ports and channels from 0. */
const partId = ({ track, port, channel }: Pick<Part, 'track' | 'port' | 'channel'>): number =>
  (track * 128 + port) * 16 + channel;

/** Keys that may be switches: by how they are played, or by the name of their track all of them. */
const mayBeSwitches = ({ likelySwitches, trackName }: PartNotes): ((key: number) => boolean) => {
  if (readTrackName(trackName ?? '').switchesOf !== null) return () => true;
  const likely = new Set(likelySwitches);
  return (key) => likely.has(key);
};

/** Counts the keys that may be switches, cue by cue, while their scores are at hand. */
export class SwitchPresses {
  readonly #byPart = new Map<PartNotes, readonly KeyPresses[]>();
  #files = 0;

  /** @param parts those of the score, as they were counted */
  add(cue: string, score: Score, parts: readonly PartNotes[]): void {
    const order = this.#files;
    this.#files += 1;
    const byId = new Map(partsOf(score).map((part) => [partId(part), part]));
    for (const notes of parts) {
      const { track, port, channel, likelySwitches, trackName } = notes;
      if (likelySwitches.length === 0 && trackName === null) continue;
      const part = byId.get(partId({ track, port: port - 1, channel: channel - 1 }));
      const found = part && pressesOf(score, part, mayBeSwitches(notes));
      if (found === undefined || found.length === 0) continue;
      this.#byPart.set(
        notes,
        found.map((one) => ({ ...one, cue, order })),
      );
    }
  }

  /** Keys ascending. */
  of(part: PartNotes): readonly KeyPresses[] {
    return this.#byPart.get(part) ?? [];
  }
}

type Presses = Pick<KeyPresses, 'key' | 'count' | 'bar'>;

const pressesOf = (
  score: Score,
  part: Part,
  isWanted: (key: number) => boolean,
): readonly Presses[] => {
  const track = score.tracks[part.track];
  const timeline = score.timelines[track?.timeline ?? -1];
  if (track === undefined || timeline === undefined) return [];
  const { tick, status, data1, data2 } = track.events;
  const found = new Map<number, { count: number; readonly tick: number }>();
  for (const event of eventsOf(score, part)) {
    if ((status[event] as number) >> 4 !== 0x9 || data2[event] === 0) continue;
    const key = data1[event] as number;
    const own = found.get(key);
    if (own !== undefined) own.count += 1;
    else if (isWanted(key)) found.set(key, { count: 1, tick: tick[event] as number });
  }
  if (found.size === 0) return [];
  const time = clock(timeline);
  return [...found]
    .sort(([a], [b]) => a - b)
    .map(([key, { count, tick: first }]) => ({ key, count, bar: time.placeAt(first).bar }));
};
