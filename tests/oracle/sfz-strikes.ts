/** Which note-off ends which strike of a key, pedals ignored. */
import { doubtBits, plain, type Alternative } from './doubts.ts';
import { isNoteOff, isNoteOn, liftsAllKeys, type SfzEvent } from './sfz-data.ts';

export interface Strike {
  readonly channel: number;
  readonly key: number;
  readonly velocity: number;
  /** Index of the note-on. */
  readonly on: number;
  /** When the key went up; null: not before the cue ends. */
  readonly keyUp: number | null;
}

/** Both readings: a note-off ends the oldest strike of its key, or for an engine all of them. */
export function strikesOf(events: readonly SfzEvent[]): Alternative<readonly Strike[]>[] {
  const oldest = strikes(events, false);
  const all = strikes(events, true);
  // Mostly no key is struck twice.
  if (all.every(({ keyUp }, i) => keyUp === oldest[i]!.keyUp)) {
    return [{ value: oldest, doubts: plain }];
  }
  return [
    { value: oldest, doubts: plain },
    { value: all, doubts: doubtBits.engine },
  ];
}

function strikes(events: readonly SfzEvent[], endsAll: boolean): Strike[] {
  const made: {
    channel: number;
    key: number;
    velocity: number;
    on: number;
    keyUp: number | null;
  }[] = [];
  events.forEach((event, index) => {
    const { channel, data1: key, data2: velocity } = event;
    if (isNoteOn(event)) made.push({ channel, key, velocity, on: index, keyUp: null });
    const down = made.filter((note) => note.keyUp === null && note.channel === channel);
    const struck = down.filter((note) => note.key === key);
    if (isNoteOff(event)) {
      for (const note of endsAll ? struck : struck.slice(0, 1)) note.keyUp = index;
    }
    if (liftsAllKeys(event)) for (const note of down) note.keyUp = index;
  });
  return made;
}
