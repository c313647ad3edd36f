/** Hand-made reels for keyswitches: what is plain, and what each doubt adds. */
import { describe, expect, test } from 'vitest';
import {
  minimalSets,
  reachedByAll,
  reachedByCopy,
  startsOf,
  type DoubtNames,
  type TableCue,
  type TableEvent,
  type TableRow,
} from './tables.ts';

/** 1000 ticks to the second, and halves, quarters and eighths only: seconds compare exactly. */
const event = (
  tick: number,
  kind: 'note-on' | 'note-off',
  key: number,
  velocity: number,
): TableEvent => ({ tick, seconds: tick / 1000, kind, key, velocity });
const on = (tick: number, key: number, velocity = 80) => event(tick, 'note-on', key, velocity);
const off = (tick: number, key: number) => event(tick, 'note-off', key, 64);

const row = (switchKey: number | null, more: Partial<TableRow> = {}): TableRow => ({
  articulation: switchKey === null ? null : `switch ${switchKey}`,
  switchKey,
  keys: [60, 72],
  velocities: [1, 127],
  ...more,
});

/** Three articulations; the switches lie below the keys that play. */
const sustain = 24;
const pluck = 25;
const flutter = 26;
const table = [row(sustain), row(pluck), row(flutter)];

const never: DoubtNames[] = [];
const plain: DoubtNames[] = [[]];
const under = (...sets: string[][]): DoubtNames[] => sets;

const reach = (cues: TableCue[], slack = 0) => reachedByCopy(table, cues, slack);

test('minimal sets: a set that contains another one goes, and so do repeats', () => {
  expect(minimalSets([])).toEqual([]);
  expect(minimalSets([['slack', 'order'], ['slack'], ['slack']])).toEqual([['slack']]);
  expect(minimalSets([['slack'], ['start-state', 'order']])).toEqual([
    ['order', 'start-state'],
    ['slack'],
  ]);
  expect(minimalSets([['order'], [], ['slack']])).toEqual([[]]);
});

describe('the plain reading', () => {
  test('a switch stays in force until the next one', () => {
    expect(reach([[on(0, sustain), on(500, 60), on(1000, 61)]])).toEqual([plain, never, never]);
    expect(reach([[on(0, sustain), on(500, 60), on(1000, pluck), on(1500, 61)]])).toEqual([
      plain,
      plain,
      never,
    ]);
  });

  test('letting a switch go, or pressing it at velocity 0, changes nothing', () => {
    expect(
      reach([[on(0, sustain), off(250, sustain), on(300, pluck, 0), off(400, pluck), on(500, 60)]]),
    ).toEqual([plain, never, never]);
  });

  test.each<[string, TableEvent, DoubtNames[]]>([
    ['lowest key', on(500, 60), plain],
    ['below it', on(500, 59), never],
    ['highest key', on(500, 72), plain],
    ['above it', on(500, 73), never],
    ['lowest velocity', on(500, 64, 40), plain],
    ['below it', on(500, 64, 39), never],
    ['highest velocity', on(500, 64, 90), plain],
    ['above it', on(500, 64, 91), never],
    ['velocity 0 is a note-off', on(500, 64, 0), never],
  ])('limits are inclusive: %s', (_, note, expected) => {
    const rows = [row(sustain, { velocities: [40, 90] })];
    const wide = on(0, sustain, 100);
    expect(reachedByCopy(rows, [[wide, note]], 0)).toEqual([expected]);
  });

  test('a row without a switch plays whatever was switched, even nothing', () => {
    const rows = [row(null), row(sustain)];
    expect(reachedByCopy(rows, [[on(0, 60), on(500, pluck), on(1000, sustain)]], 0)[0]).toEqual(
      plain,
    );
  });
});

describe('start-state', () => {
  test('before its first switch a copy may play what it uses elsewhere, and nothing else', () => {
    // 1m1 uses sustain; 1m2 plays before it uses pluck; flutter is never used.
    const cues = [
      [on(0, sustain), on(500, 59)],
      [on(0, 60), on(500, pluck), on(1000, 59)],
    ];
    expect(reach(cues)).toEqual([under(['start-state']), under(['start-state']), never]);
  });

  test('a state is not carried from one cue into the next', () => {
    const cues = [[on(0, sustain), on(500, 59)], [on(0, 60)]];
    expect(reach(cues)).toEqual([under(['start-state']), never, never]);
  });

  test('other copies do not count: this one never switches', () => {
    expect(reachedByAll(table, [[[on(0, sustain), on(500, 59)]], [[on(0, 60)]]], 0)).toEqual([
      under(['no-switch']),
      under(['no-switch']),
      under(['no-switch']),
    ]);
  });

  test('after the first switch of the cue there is no doubt any more', () => {
    const cues = [
      [on(0, sustain), on(500, 59)],
      [on(0, pluck), on(500, 60)],
    ];
    expect(reach(cues)).toEqual([never, plain, never]);
  });
});

describe('no-switch', () => {
  test('all articulations, on the keys that are played', () => {
    const rows = [...table, row(pluck, { keys: [70, 72] })];
    const noSwitch = under(['no-switch']);
    expect(reachedByCopy(rows, [[on(0, 60)], [on(0, 62)]], 0)).toEqual([
      noSwitch,
      noSwitch,
      noSwitch,
      never,
    ]);
  });

  test('one switch anywhere in the reel ends it', () => {
    expect(reach([[on(0, 60)], [on(500, flutter)]])).toEqual([
      never,
      never,
      under(['start-state']),
    ]);
  });

  test('a copy that plays nothing reaches nothing', () => {
    expect(reach([[]])).toEqual([never, never, never]);
    expect(reach([])).toEqual([never, never, never]);
  });
});

describe('order', () => {
  test('switch, then note, on one tick: the note may as well have come first', () => {
    // Plain: pluck. If the note came first: what was in force, sustain.
    expect(reach([[on(0, sustain), on(500, pluck), on(500, 60)]])).toEqual([
      under(['order']),
      plain,
      never,
    ]);
  });

  test('note, then switch, on one tick', () => {
    expect(reach([[on(0, sustain), on(500, 60), on(500, pluck)]])).toEqual([
      plain,
      under(['order']),
      never,
    ]);
  });

  test('the first tick of a cue: the note may come first, into an unknown state', () => {
    const before = [on(0, sustain), on(500, 59)];
    // Plain pluck. The note first: what the copy uses elsewhere, sustain or pluck, and that is two
    // doubts; for pluck the plain reading says enough.
    expect(reach([before, [on(0, pluck), on(0, 60)]])).toEqual([
      under(['order', 'start-state']),
      plain,
      never,
    ]);
    // The note stands first in the file, so the state is unknown in the plain reading already.
    expect(reach([before, [on(0, 60), on(0, pluck)]])).toEqual([
      under(['start-state']),
      under(['order'], ['start-state']),
      never,
    ]);
  });

  test('two switches and a note between them', () => {
    expect(reach([[on(0, sustain), on(500, pluck), on(500, 60), on(500, flutter)]])).toEqual([
      under(['order']),
      plain,
      under(['order']),
    ]);
  });

  test('of two switches on one tick either may have come last, until the next one', () => {
    const two = [on(0, sustain), on(500, pluck), on(500, flutter)];
    // The plain reading is the last in the file; what was in force before the tick is over.
    expect(reach([[...two, on(1000, 60)]])).toEqual([never, under(['order']), plain]);
    expect(reach([[...two, on(1000, sustain), on(1500, 60)]])).toEqual([plain, never, never]);
    // On the tick of the next switch they are still what was in force before.
    expect(reach([[...two, on(1000, 60), on(1000, sustain)]])).toEqual([
      under(['order']),
      under(['order']),
      plain,
    ]);
  });

  test('a tick that sets one switch twice leaves no doubt about it', () => {
    expect(reach([[on(500, pluck), on(500, flutter), on(500, pluck), on(1000, 60)]])).toEqual([
      never,
      plain,
      under(['order']),
    ]);
  });
});

describe('a key that switches and plays', () => {
  /** Key 60 is the switch of the second row and plays in all of them. */
  const rows = [row(sustain), row(60), row(flutter)];

  test('it sees its own press; by order, what was in force before its tick', () => {
    // The switch is set before the key is looked at: plain. A player that looks first finds sustain.
    const cue = [on(0, sustain), on(500, 60)];
    expect(reachedByCopy(rows, [cue], 0)).toEqual([under(['order']), plain, never]);
  });

  test('it is one more press right before the note: a second one on the tick changes nothing', () => {
    const once = [on(0, sustain), on(500, 60)];
    const twice = [on(0, sustain), on(500, 60), on(500, 60)];
    for (const slack of [0, 0.25, 0.5]) {
      expect(reachedByCopy(rows, [twice], slack)).toEqual(reachedByCopy(rows, [once], slack));
    }
  });

  test('the next note sees it, and no longer what was before', () => {
    // Key 60 plays in no row here: only the later note starts anything.
    const above = rows.map((one) => ({ ...one, keys: [61, 72] as const }));
    const cue = [on(0, sustain), on(500, 60), on(1000, 62)];
    expect(reachedByCopy(above, [cue], 0)).toEqual([never, plain, never]);
  });

  test('another switch on its tick, before or after it in the file', () => {
    // Its own press stands nearest to it either way; the other one by order, and so what was before.
    const expected = [under(['order']), plain, under(['order'])];
    const after = [on(0, sustain), on(500, 60), on(500, flutter)];
    const before = [on(0, sustain), on(500, flutter), on(500, 60)];
    expect(reachedByCopy(rows, [after], 0)).toEqual(expected);
    expect(reachedByCopy(rows, [before], 0)).toEqual(expected);
  });

  test('as the first of its cue: itself, and by order an unknown state', () => {
    expect(reachedByCopy(rows, [[on(0, 60)]], 0)).toEqual([never, plain, never]);
    const before = [on(0, sustain), on(500, 59)];
    expect(reachedByCopy(rows, [before, [on(0, 60)]], 0)).toEqual([
      under(['order', 'start-state']),
      plain,
      never,
    ]);
  });

  test('with slack, what was in force when its window opened as well', () => {
    // Sustain by the order of tick 500, and by a delay of the press: two reasons, side by side.
    const cue = [on(0, sustain), on(500, 60)];
    expect(reachedByCopy(rows, [cue], 0.25)).toEqual([under(['order'], ['slack']), plain, never]);
  });

  test('at velocity 0 it is no press and no note', () => {
    const cue = [on(0, sustain), on(500, 60, 0), on(1000, 62)];
    expect(reachedByCopy(rows, [cue], 0)).toEqual([plain, never, never]);
  });

  test('its end is an ordinary later event', () => {
    const ends = rows.map((one) => ({ ...one, release: true }));
    // Long after its press: the press is in force, and nothing is in doubt.
    const later = [on(0, sustain), on(500, 60), off(1000, 60)];
    expect(reachedByCopy(ends, [later], 0)).toEqual([never, plain, never]);
    // Another switch in between: the press is over.
    const changed = [on(0, sustain), on(500, 60), on(750, flutter), off(1000, 60)];
    expect(reachedByCopy(ends, [changed], 0)).toEqual([never, never, plain]);
  });
});

describe('slack', () => {
  const score = (switchTick: number) => [[on(0, sustain), on(switchTick, pluck), on(1000, 60)]];

  test('without slack only the file counts', () => {
    expect(reach(score(875))).toEqual([never, plain, never]);
  });

  test('a switch before the note, inside the window: the note may have come first', () => {
    expect(reach(score(875), 0.25)).toEqual([under(['slack']), plain, never]);
  });

  test('a switch after the note, inside the window', () => {
    expect(reach(score(1125), 0.25)).toEqual([plain, under(['slack']), never]);
  });

  test('the window is closed: a switch on its far end counts', () => {
    expect(reach(score(1250), 0.25)).toEqual([plain, under(['slack']), never]);
    expect(reach(score(1251), 0.25)).toEqual([plain, never, never]);
  });

  test('at its opening too: the note may stand on that tick, before the switch or after it', () => {
    // Moved ahead by exactly 0.25 s the note meets the switch at 750, and may come first: sustain.
    expect(reach(score(750), 0.25)).toEqual([under(['slack']), plain, never]);
    expect(reach(score(751), 0.25)).toEqual([under(['slack']), plain, never]);
    expect(reach(score(749), 0.25)).toEqual([never, plain, never]);
  });

  test('a switch at the opening is inside, though two more follow it', () => {
    const cue = [on(0, flutter), on(750, sustain), on(875, pluck), on(1000, 60)];
    expect(reach([cue], 0.25)).toEqual([under(['slack']), plain, under(['slack'])]);
  });

  test('two switches at the opening: both are inside, so their order is no second doubt', () => {
    const two = [on(750, flutter), on(750, sustain), on(875, pluck), on(1000, 60)];
    expect(reach([[on(0, pluck), ...two]], 0.25)).toEqual([
      under(['slack']),
      plain,
      under(['slack']),
    ]);
  });

  /** A millionth of a tick here, and less: what sums of tempos may leave over. */
  test.each([
    ['opening, a hair early', 750, -5e-10, [under(['slack']), plain, never]],
    ['opening, a hair late', 750, 5e-10, [under(['slack']), plain, never]],
    ['opening, too early', 750, -2e-9, [never, plain, never]],
    ['far end, a hair early', 1250, -5e-10, [plain, under(['slack']), never]],
    ['far end, a hair late', 1250, 5e-10, [plain, under(['slack']), never]],
    ['far end, too late', 1250, 2e-9, [plain, never, never]],
  ])('equal moments may differ by a billionth of a second: %s', (_, tick, hair, expected) => {
    const press = { ...on(tick, pluck), seconds: tick / 1000 + hair };
    const cue = [on(0, sustain), press, on(1000, 60)].sort((a, b) => a.tick - b.tick);
    expect(reach([cue], 0.25)).toEqual(expected);
  });

  test('a hair early at the opening is inside: not what was before it', () => {
    // Were sustain the state before the window, flutter would be over.
    const press = { ...on(750, sustain), seconds: 0.75 - 5e-10 };
    const cue = [on(0, flutter), press, on(875, pluck), on(1000, 60)];
    expect(reach([cue], 0.25)).toEqual([under(['slack']), plain, under(['slack'])]);
  });

  test('every switch in the window, and the one in force when it opens', () => {
    expect(
      reach([[on(0, sustain), on(875, pluck), on(1000, 60), on(1125, flutter)]], 0.25),
    ).toEqual([under(['slack']), plain, under(['slack'])]);
  });

  test('what the order of a tick allows, a delay may cause as well: side by side', () => {
    // Who settles order as plain trusts the file within a tick; the tracks may still be out.
    expect(reach([[on(0, sustain), on(1000, 60), on(1000, pluck)]], 0.25)).toEqual([
      plain,
      under(['order'], ['slack']),
      never,
    ]);
    expect(reach([[on(0, sustain), on(1000, pluck), on(1000, 60)]], 0.25)).toEqual([
      under(['order'], ['slack']),
      plain,
      never,
    ]);
  });

  test('no slack is no doubt: a window of one moment would only be order once more', () => {
    expect(reach([[on(0, sustain), on(1000, 60), on(1000, pluck)]], 0)).toEqual([
      plain,
      under(['order']),
      never,
    ]);
  });

  test('of two switches on an earlier tick: the window holds both, so either by a delay', () => {
    const cue = (tick: number) => [on(tick, pluck), on(tick, sustain), on(1000, 60)];
    expect(reach([cue(875)], 0.25)).toEqual([plain, under(['order'], ['slack']), never]);
    // Before the window the delay adds nothing: order alone says it, within order and slack.
    expect(reach([cue(500)], 0.25)).toEqual([plain, under(['order']), never]);
  });

  test('two switches on one tick, in force when the window opens: two doubts for one of them', () => {
    expect(reach([[on(0, flutter), on(0, sustain), on(875, pluck), on(1000, 60)]], 0.25)).toEqual([
      under(['slack']),
      plain,
      under(['order', 'slack']),
    ]);
  });

  test('the first switch of a cue inside the window: before it the state is unknown', () => {
    const cues = [
      [on(0, sustain), on(500, 59)],
      [on(875, pluck), on(1000, 60)],
    ];
    expect(reach(cues, 0.25)).toEqual([under(['slack', 'start-state']), plain, never]);
    // The other way about: start-state in any case, and pluck by the delay alone.
    const late = [
      [on(0, sustain), on(500, 59)],
      [on(1000, 60), on(1125, pluck)],
    ];
    expect(reach(late, 0.25)).toEqual([
      under(['start-state']),
      under(['slack'], ['start-state']),
      never,
    ]);
  });

  test('it does not reach into another cue', () => {
    const cues = [[on(0, sustain), on(1000, 60)], [on(1000, pluck)]];
    expect(reach(cues, 0.25)).toEqual([plain, never, never]);
  });
});

describe('release rows', () => {
  const rows = [
    row(sustain, { release: true, velocities: [1, 63] }),
    row(pluck, { release: true, velocities: [1, 63] }),
    row(pluck),
  ];

  test('at the end of the note, by its own velocity and the switch of that moment', () => {
    const cue = [on(0, sustain), on(500, 60, 63), on(750, pluck), off(1000, 60)];
    expect(reachedByCopy(rows, [cue], 0)).toEqual([never, plain, never]);
  });

  test('the velocity of the note-off is nothing', () => {
    // The first note is too loud for these rows, the second is not: 63 is their loudest.
    const loud = [on(0, sustain), on(500, 60, 64), event(750, 'note-off', 60, 30)];
    const soft = [on(0, sustain), on(500, 60, 63), event(750, 'note-off', 60, 127)];
    expect(reachedByCopy(rows, [loud], 0)).toEqual([never, never, never]);
    expect(reachedByCopy(rows, [soft], 0)).toEqual([plain, never, never]);
  });

  test('the order of a switch and the end of a note on one tick', () => {
    const cue = [on(0, sustain), on(500, 60, 50), off(750, 60), on(750, pluck)];
    expect(reachedByCopy(rows, [cue], 0)).toEqual([plain, under(['order']), never]);
  });

  test('a note-off of a key that is not down, and a note that never ends, start nothing', () => {
    expect(reachedByCopy(rows, [[on(0, sustain), off(500, 60), on(750, 60, 50)]], 0)).toEqual([
      never,
      never,
      never,
    ]);
  });

  test('a key struck twice: the older strike ends first', () => {
    const cue = [on(0, 60, 10), on(1, 60, 20), off(2, 60), on(3, 60, 0), off(4, 60)];
    const ends = startsOf(rows, [cue], 0).filter(({ release }) => release);
    expect(ends.map(({ velocity }) => velocity)).toEqual([10, 20]);
  });
});

test('several copies: each by itself, the sets of all of them together', () => {
  const first = [[on(0, sustain), on(500, pluck), on(500, 60)]]; // sustain by order, pluck plain
  const second = [[on(0, sustain), on(500, 60)]]; // sustain plain
  expect(reachedByAll(table, [first, second], 0)).toEqual([plain, plain, never]);
  expect(reachedByAll(table, [], 0)).toEqual([never, never, never]);
});
