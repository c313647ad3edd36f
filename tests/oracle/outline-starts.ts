/** Everything that may start a zone of an outline in a cue: each event is asked, from the cue's start. */
import { doubtBits, plain } from './doubts.ts';
import type { OutlineReel } from './outline-data.ts';
import { countHeld, othersHeld } from './outline-held.ts';
import type { OutlineZone } from './outline-zones.ts';
import type { Condition } from './sfz-conditions.ts';
import { isNoteOn } from './sfz-data.ts';
import { keyUpStarts, releaseStarts, type StartEvent } from './sfz-ends.ts';
import { pedalHistories, type PedalHistory } from './sfz-pedals.ts';
import type { OracleRegion } from './sfz-regions.ts';
import { messageSignal, none, type Moment, type Signal } from './sfz-signals.ts';

const { stretch } = doubtBits;

type Cue = OutlineReel[number];

export interface OutlineStart {
  readonly why: 'note' | 'end' | 'return';
  readonly moment: Moment;
  /** 0-15. */
  readonly channel: number;
  /** The key that the zone has to answer. */
  readonly key: number;
  /** The key of the event: another one where a key comes back. */
  readonly struck: number;
  /** Of the note-on that starts it, or of the note that ends. */
  readonly velocity: number;
  readonly doubts: number;
  /** Any one of these ways is enough. */
  readonly ways: readonly OutlineWay[];
}

export interface OutlineWay {
  readonly conditions: readonly Condition[];
  readonly doubts: number;
}

const always: readonly OutlineWay[] = [{ conditions: [], doubts: plain }];

/** Pedals are down from 64 on; and nothing of a region but that matters to the pedals' helper. */
const pedals: OracleRegion = {
  number: 0,
  opcodes: new Map([
    ['sustain_lo', '64'],
    ['sostenuto_lo', '64'],
  ]),
  keyless: new Set(),
  offsets: { keys: 0, switches: 0 },
};

const bare = { regions: [], switchDefaults: [], firstValues: new Map(), curves: new Map() };

const known = new WeakMap<Cue, PedalHistory>();

/** When the notes of a cue end, as its file has it. Outlines take no other reading of it. */
export function asInFile(cue: Cue): PedalHistory {
  const history = known.get(cue) ?? historyOf(cue);
  known.set(cue, history);
  return history;
}

function historyOf({ events }: Cue): PedalHistory {
  // A copy of the region: what the helper remembers goes with it.
  const [history] = pedalHistories(bare, { ...pedals }, events);
  return {
    doubts: plain,
    notes: history!.notes.map((note) => ({
      ...note,
      releases: note.releases.filter(({ doubts }) => doubts === plain),
    })),
  };
}

export function startsOf(zone: OutlineZone, cue: Cue): OutlineStart[] {
  const { kind, articulation } = zone;
  if (kind === 'release') return endStarts(zone, cue);
  return [
    ...noteStarts(zone, cue),
    ...coarseEnds(zone, cue),
    ...(articulation.legato === null ? [] : returnStarts(zone, cue)),
  ];
}

/**
 * A zone that stands for all that was recorded may hold what is heard when a key goes up, or what is
 * come back to then: of what is chosen then, which need not be what was chosen for the note.
 */
function coarseEnds({ kind, articulation, isChosen }: OutlineZone, cue: Cue): OutlineStart[] {
  const { sampled, when } = articulation;
  if (kind !== 'sustain' || sampled !== null || !isChosen) return [];
  if (when !== null && when !== 'player-decides') {
    if (when.controllers.length > 0 || when.pressure !== null || when.held !== null) return [];
  }
  const asStart = ({ moment, channel, key, velocity, doubts }: StartEvent): OutlineStart => ({
    ...{ why: 'end', moment, channel, key: key!, struck: key!, velocity: velocity! },
    ...{ doubts: doubts | stretch, ways: always },
  });
  return [...releaseStarts([asInFile(cue)], cue), ...keyUps(cue)].map(asStart);
}

function noteStarts(zone: OutlineZone, cue: Cue): OutlineStart[] {
  const { events } = cue;
  return events.flatMap((event, index): OutlineStart[] => {
    if (!isNoteOn(event)) return [];
    const { channel, data1: key, data2: velocity } = event;
    const ways = zone.kind === 'legato' ? legatoWays(zone, channel, key) : always;
    const moment = { events, index };
    return [{ why: 'note', moment, channel, key, struck: key, velocity, doubts: plain, ways }];
  });
}

/** The key before is held; another key is; or it was the key before, however long ago. */
function legatoWays(
  { articulation, interval, silent }: OutlineZone,
  channel: number,
  key: number,
): OutlineWay[] {
  const { overlap } = articulation.legato!;
  const window = overlap ?? 0;
  const previousKey = previousOf(silent);
  if (interval === null) {
    const some = atLeastOne(othersHeld(channel, key, window, silent));
    const notFirst: Condition = [
      { signal: previousKey, accepts: (before) => before >= 0, doubts: plain },
    ];
    return [
      { conditions: [some], doubts: plain },
      ...(overlap === null ? [{ conditions: [notFirst], doubts: stretch }] : []),
    ];
  }
  const before = key - interval;
  const wasBefore: Condition = [
    { signal: previousKey, accepts: (value) => value === before, doubts: plain },
  ];
  const isHeld = atLeastOne(keyHeld(before, window));
  return [
    { conditions: [wasBefore, isHeld], doubts: plain },
    { conditions: [isHeld], doubts: stretch },
    ...(overlap === null ? [{ conditions: [wasBefore], doubts: stretch }] : []),
  ];
}

/** A key goes up while another is held, which is heard again. */
function returnStarts(zone: OutlineZone, cue: Cue): OutlineStart[] {
  const { intervals, returns } = zone.articulation.legato!;
  if (returns === false) return [];
  const { silent } = zone;
  const doubts = returns === null ? stretch : plain;
  return keyUps(cue).flatMap(({ moment, channel, key: released, velocity, doubts: more }) => {
    // A key that only switches was no note that could be come back from.
    if (silent.includes(released!)) return [];
    const keys = Array.from({ length: 128 }, (_, key) => key).filter((key) => {
      const distance = key - released!;
      if (distance === 0 || zone.answers(key).length === 0) return false;
      if (intervals !== null && Math.abs(distance) > intervals) return false;
      return zone.interval === null || zone.interval === distance;
    });
    return keys.map((key): OutlineStart => ({
      ...{ why: 'return', moment, channel, key, struck: released!, velocity: velocity! },
      doubts: doubts | more,
      ways: [{ conditions: [atLeastOne(keyHeld(key, 0))], doubts: plain }],
    }));
  });
}

function endStarts({ articulation }: OutlineZone, cue: Cue): OutlineStart[] {
  const { at } = articulation.releases!;
  const asStart = (start: StartEvent, doubts: number): OutlineStart => ({
    ...{ why: 'end', moment: start.moment, channel: start.channel, key: start.key! },
    ...{
      struck: start.key!,
      velocity: start.velocity!,
      doubts: start.doubts | doubts,
      ways: always,
    },
  });
  const byKey = (doubts: number) => keyUps(cue).map((start) => asStart(start, doubts));
  if (at === 'note-off') return byKey(plain);
  return [
    ...releaseStarts([asInFile(cue)], cue).map((start) => asStart(start, plain)),
    ...(at === null ? byKey(stretch) : []),
  ];
}

/** Every note's key going up; what is held at the end of the cue goes up then. */
function keyUps(cue: Cue): StartEvent[] {
  // A note-off that ends all strikes of its key is a reading of SFZ engines alone.
  return keyUpStarts(cue).filter(({ doubts }) => (doubts & doubtBits.engine) === 0);
}

/** The last note before, switches that play nothing left out. */
function previousOf(silent: readonly number[]): Signal {
  return messageSignal(
    `previous key but ${silent.join(' ')}`,
    [{ value: none, doubts: plain }],
    (event) => (isNoteOn(event) && !silent.includes(event.data1) ? event.data1 : null),
    false,
  );
}

function keyHeld(key: number, window: number): Signal {
  return countHeld(`key ${key}`, (one) => one.key === key, window);
}

function atLeastOne(signal: Signal): Condition {
  return [{ signal, accepts: (count) => count > 0, doubts: plain }];
}
