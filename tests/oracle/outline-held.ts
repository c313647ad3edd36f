/** Keys that are down at a moment, some of them for a while after they were let go. */
import { doubtBits, plain } from './doubts.ts';
import { isNoteOff, isNoteOn, liftsAllKeys, type SfzEvent } from './sfz-data.ts';
import type { Moment, Signal, SignalValue } from './sfz-signals.ts';

interface Touched {
  readonly channel: number;
  readonly key: number;
  /** When it was let go, in seconds; null: it is down. */
  readonly letGo: number | null;
}

/** Sums of tempos may differ in their last bits. */
const sameMoment = 1e-9;

const known = new WeakMap<readonly SfzEvent[], Map<number, Touched[]>>();

/** What became of every key that the first events pressed: asked often, so it is kept. */
function keysAfter(events: readonly SfzEvent[], count: number): Touched[] {
  const ofCue = known.get(events) ?? new Map<number, Touched[]>();
  known.set(events, ofCue);
  const touched = ofCue.get(count) ?? touchedBy(events, count);
  ofCue.set(count, touched);
  return touched;
}

function touchedBy(events: readonly SfzEvent[], count: number): Touched[] {
  let touched: Touched[] = [];
  for (const event of events.slice(0, count)) {
    const { channel, data1: key, seconds } = event;
    const isThis = (one: Touched) => one.channel === channel && one.key === key;
    const letGo = (which: (one: Touched) => boolean) =>
      touched.map((one) => (one.letGo === null && which(one) ? { ...one, letGo: seconds } : one));
    if (isNoteOn(event)) {
      touched = [...touched.filter((one) => !isThis(one)), { channel, key, letGo: null }];
    }
    // A key is up after its note-off, however often it was struck.
    if (isNoteOff(event)) touched = letGo(isThis);
    if (liftsAllKeys(event)) touched = letGo((one) => one.channel === channel);
  }
  return touched;
}

/**
 * How many of the keys asked for count as held: plainly after the event itself, under `order` as the
 * tick finds it and after each of its events.
 *
 * @param within - Seconds for which a key counts after it was let go.
 */
export function countHeld(
  name: string,
  counts: (one: { readonly channel: number; readonly key: number }) => boolean,
  within: number,
): Signal {
  const at = ({ events, index }: Moment): SignalValue[] => {
    const event = events[index];
    const now = event?.seconds ?? Infinity;
    const isHeld = ({ letGo }: Touched) =>
      letGo === null || (within > 0 && now - letGo <= within + sameMoment);
    const value = (count: number, doubts: number): SignalValue => ({
      value: new Set(
        keysAfter(events, count)
          .filter((one) => isHeld(one) && counts(one))
          .map(({ channel, key }) => 128 * channel + key),
      ).size,
      ...{ doubts, reading: 'rp-015', source: null },
    });
    const onTick = events.flatMap(({ tick }, i) => (tick === event?.tick ? [i, i + 1] : []));
    return [
      value(index + 1, plain),
      ...[...new Set(onTick)].map((count) => value(count, doubtBits.order)),
    ];
  };
  return { name: `held ${name} within ${within}`, at };
}

/** How many other keys count as held. A key that only switches is no note. */
export function othersHeld(
  channel: number,
  key: number,
  window: number,
  silent: readonly number[],
): Signal {
  return countHeld(
    `beside ${channel} ${key} but ${silent.join(' ')}`,
    (one) => !(one.channel === channel && one.key === key) && !silent.includes(one.key),
    window,
  );
}
