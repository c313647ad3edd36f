/**
 * What an instrument given as a table of rows plays: keyswitches and their doubts, nothing else.
 *
 * Written to be read: every note looks through the whole cue again. A switch stays in force until
 * the next one. A key that switches and plays sets its switch first, then looks for its zones. State
 * belongs to one copy, and each cue starts without any. Controllers, pedals and damage are not here.
 */

export type Limits = readonly [lowest: number, highest: number];

/** A zone. A switch key of null: it plays whatever was switched. */
export interface TableRow {
  readonly articulation: string | null;
  readonly switchKey: number | null;
  readonly keys: Limits;
  readonly velocities: Limits;
  /** Starts at the end of a note, by the note's own velocity. */
  readonly release?: boolean;
}

/** An event of one copy. `seconds` rises with `tick`: two events have the same of both, or neither. */
export interface TableEvent {
  readonly tick: number;
  readonly seconds: number;
  readonly kind: 'note-on' | 'note-off';
  readonly key: number;
  /** 0 on a note-on is a note-off. */
  readonly velocity: number;
}

/** The events of a cue in file order: ticks never fall. */
export type TableCue = readonly TableEvent[];

/** What one copy plays in the whole reel, cue by cue. */
export type TableCopy = readonly TableCue[];

/** Names in alphabetical order; [] is the plain reading. */
export type DoubtNames = readonly string[];

/** A switch that may be in force, and the doubts under which it is. */
export interface SwitchInForce {
  readonly switchKey: number;
  readonly doubts: DoubtNames;
}

/** Something that may start zones: a note, or the end of one. */
export interface TableStart {
  readonly release: boolean;
  readonly key: number;
  /** Of the note-on, for the end of a note too. */
  readonly velocity: number;
  readonly switches: readonly SwitchInForce[];
}

/** Seconds: sums of tempos may differ in their last bits, and these are far less than a tick. */
const sameMoment = 1e-9;

/** Drops repeats and every set that contains another one; in the order of the joined names. */
export function minimalSets(sets: readonly DoubtNames[]): DoubtNames[] {
  const sorted = sets.map((set) => [...new Set(set)].sort());
  const different = [...new Map(sorted.map((set) => [set.join(), set])).values()];
  return different
    .filter(
      (set) => !different.some((other) => other !== set && other.every((d) => set.includes(d))),
    )
    .sort((a, b) => (a.join() < b.join() ? -1 : 1));
}

/**
 * The doubt sets under which the copy reaches each row; none at all: never.
 *
 * @param slackSeconds - How far a note and a switch may be out, either way; 0: no delays, no `slack`.
 */
export function reachedByCopy(
  rows: readonly TableRow[],
  copy: TableCopy,
  slackSeconds: number,
): DoubtNames[][] {
  const starts = startsOf(rows, copy, slackSeconds);
  return rows.map((row) => minimalSets(starts.flatMap((start) => startedUnder(row, start))));
}

/** The same for all copies of the instrument together. */
export function reachedByAll(
  rows: readonly TableRow[],
  copies: readonly TableCopy[],
  slackSeconds: number,
): DoubtNames[][] {
  const each = copies.map((copy) => reachedByCopy(rows, copy, slackSeconds));
  return rows.map((_, row) => minimalSets(each.flatMap((sets) => sets[row]!)));
}

/** The doubt sets under which one start starts one row. */
export function startedUnder(row: TableRow, start: TableStart): readonly DoubtNames[] {
  if (start.release !== (row.release ?? false)) return [];
  if (!within(start.key, row.keys) || !within(start.velocity, row.velocities)) return [];
  if (row.switchKey === null) return [[]];
  return start.switches
    .filter(({ switchKey }) => switchKey === row.switchKey)
    .map(({ doubts }) => doubts);
}

/** Every note and every end of a note of a copy, with the switches that may be in force then. */
export function startsOf(
  rows: readonly TableRow[],
  copy: TableCopy,
  slackSeconds: number,
): TableStart[] {
  const switchKeys = switchKeysOf(rows);
  const isPress = (event: TableEvent) => isNote(event) && switchKeys.includes(event.key);
  const chosen = [...new Set(copy.flatMap((cue) => cue.filter(isPress).map(({ key }) => key)))];
  const starts: TableStart[] = [];

  for (const cue of copy) {
    const held: TableEvent[] = [];
    const presses = cue.filter(isPress);
    for (const [index, event] of cue.entries()) {
      // A key sets its switch before it plays: its own press counts as one right before the note.
      const upToEvent = cue.slice(0, index + 1).filter(isPress);
      const switches =
        chosen.length === 0
          ? switchKeys.map((switchKey) => ({ switchKey, doubts: ['no-switch'] }))
          : switchesAt(event, presses, upToEvent, chosen, slackSeconds);

      if (isNote(event)) {
        held.push(event);
        starts.push({ release: false, key: event.key, velocity: event.velocity, switches });
      } else {
        // A key struck twice is let go twice: the older note ends first.
        const at = held.findIndex(({ key }) => key === event.key);
        const [ended] = at < 0 ? [] : held.splice(at, 1);
        if (ended === undefined) continue;
        starts.push({ release: true, key: ended.key, velocity: ended.velocity, switches });
      }
    }
  }
  return starts;
}

/** The switches of an instrument, each once. */
export function switchKeysOf(rows: readonly TableRow[]): number[] {
  return [...new Set(rows.flatMap(({ switchKey }) => switchKey ?? []))];
}

/** All doubts side by side: two of them may allow one switch, each for its own reason. */
function switchesAt(
  event: TableEvent,
  presses: readonly TableEvent[],
  upToEvent: readonly TableEvent[],
  chosen: readonly number[],
  slackSeconds: number,
): SwitchInForce[] {
  return [
    ...byOrder(event, presses, upToEvent, chosen),
    ...bySlack(event, presses, chosen, slackSeconds),
  ];
}

/** The plain reading, and any order of the events on one tick. */
function byOrder(
  event: TableEvent,
  presses: readonly TableEvent[],
  upToEvent: readonly TableEvent[],
  chosen: readonly number[],
): SwitchInForce[] {
  const beforeTick = leftBy(
    presses.filter(({ tick }) => tick < event.tick),
    chosen,
  );
  const onTick = presses.filter(({ tick }) => tick === event.tick);
  const lastInFile = upToEvent.filter(({ tick }) => tick === event.tick).at(-1);
  return [
    // What the tick found is what the note sees, unless a switch of the tick stands before the note.
    ...(lastInFile === undefined ? beforeTick : also('order', beforeTick)),
    ...(lastInFile === undefined ? [] : [{ switchKey: lastInFile.key, doubts: [] }]),
    ...onTick.map(({ key }) => ({ switchKey: key, doubts: ['order'] })),
  ];
}

/**
 * What a delay of up to the slack may cause, either way. A note moved by exactly the slack stands on
 * the tick of a switch there, before it or after it: so that switch counts, and what it replaced.
 * What the order of a tick allows is not left out: who settles `order` has said nothing of delays.
 */
function bySlack(
  event: TableEvent,
  presses: readonly TableEvent[],
  chosen: readonly number[],
  slackSeconds: number,
): SwitchInForce[] {
  // Without delays nothing moves, and the order of a tick is not theirs to doubt.
  if (slackSeconds === 0) return [];
  const from = event.seconds - slackSeconds - sameMoment;
  const to = event.seconds + slackSeconds + sameMoment;
  const beforeWindow = leftBy(
    presses.filter(({ seconds }) => seconds < from),
    chosen,
  );
  const inWindow = presses
    .filter(({ seconds }) => from <= seconds && seconds <= to)
    .map(({ key }) => ({ switchKey: key, doubts: [] }));
  return also('slack', [...beforeWindow, ...inWindow]);
}

/** What is in force after some presses: the last tick decides, and any press of it may be last. */
function leftBy(presses: readonly TableEvent[], chosen: readonly number[]): SwitchInForce[] {
  const last = presses.at(-1);
  if (last === undefined) {
    return chosen.map((switchKey) => ({ switchKey, doubts: ['start-state'] }));
  }
  return presses
    .filter(({ tick }) => tick === last.tick)
    .map((press) => ({ switchKey: press.key, doubts: press === last ? [] : ['order'] }));
}

function also(doubt: string, switches: readonly SwitchInForce[]): SwitchInForce[] {
  return switches.map(({ switchKey, doubts }) => ({
    switchKey,
    doubts: [...doubts, doubt].sort(),
  }));
}

function isNote(event: TableEvent): boolean {
  return event.kind === 'note-on' && event.velocity > 0;
}

function within(value: number, [lowest, highest]: Limits): boolean {
  return lowest <= value && value <= highest;
}
