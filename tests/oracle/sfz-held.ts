/** Keys that are down, pedals or not, and the signals that count them. */
import { doubtBits, plain, type Alternative } from './doubts.ts';
import { isNoteOff, isNoteOn, liftsAllKeys, type SfzEvent } from './sfz-data.ts';
import type { Moment, Signal } from './sfz-signals.ts';

interface DownKey {
  readonly channel: number;
  readonly key: number;
}

/** What is down after the first events; a key is up after its note-off, however often it was struck. */
function keysDown(events: readonly SfzEvent[], count: number): DownKey[] {
  let down: DownKey[] = [];
  for (const event of events.slice(0, count)) {
    const { channel, data1: key } = event;
    if (isNoteOn(event) && !down.some((note) => note.channel === channel && note.key === key)) {
      down.push({ channel, key });
    }
    if (isNoteOff(event)) {
      down = down.filter((note) => note.channel !== channel || note.key !== key);
    }
    if (liftsAllKeys(event)) down = down.filter((note) => note.channel !== channel);
  }
  return down;
}

/** Plainly after the event itself; under `order` as the tick finds it, and after each of its events. */
function statesAt({ events, index }: Moment): Alternative<DownKey[]>[] {
  const tick = events[index]?.tick;
  const onTick = events.flatMap((event, i) => (event.tick === tick ? [i, i + 1] : []));
  return [
    { value: keysDown(events, index + 1), doubts: plain },
    ...[...new Set(onTick)].map((count) => ({
      value: keysDown(events, count),
      doubts: doubtBits.order,
    })),
  ];
}

function heldSignal(name: string, counts: (note: DownKey) => boolean): Signal {
  return {
    name,
    at: (moment) =>
      statesAt(moment).map(({ value, doubts }) => ({
        value: value.filter(counts).length,
        doubts,
        reading: 'rp-015',
        source: null,
      })),
  };
}

/** 0: the key is up; more: it is down, on whatever channel. */
export function keyHeld(key: number): Signal {
  return heldSignal(`held ${key}`, (note) => note.key === key);
}

/** How many other keys are down, switch keys left out. */
export function othersHeld(own: DownKey, switchKeys: readonly number[]): Signal {
  return heldSignal(
    `held beside ${own.channel} ${own.key}`,
    (note) =>
      !(note.channel === own.channel && note.key === own.key) && !switchKeys.includes(note.key),
  );
}
