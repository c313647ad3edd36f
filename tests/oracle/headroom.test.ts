/** Hand-made room: one note, and the rows next to it. */
import { describe, expect, test } from 'vitest';
import { reachedWithHeadroom, type Headroom } from './headroom.ts';
import { reachedByAll, type TableEvent, type TableRow } from './tables.ts';

const on = (tick: number, key: number, velocity = 60): TableEvent => ({
  tick,
  seconds: tick / 1000,
  kind: 'note-on',
  key,
  velocity,
});
const off = (tick: number, key: number): TableEvent => ({
  ...on(tick, key, 64),
  kind: 'note-off',
});

const row = (
  switchKey: number | null,
  keys: readonly [number, number],
  velocities: readonly [number, number] = [1, 127],
  release = false,
): TableRow => ({ articulation: null, switchKey, keys, velocities, release });

const none: Headroom = { keys: 0, velocity: 0 };
/** Which rows are reached in the plain reading. */
const plainly = (rows: readonly TableRow[], events: TableEvent[], headroom: Headroom) =>
  reachedWithHeadroom(rows, [[events]], 0, headroom).map((sets) => sets[0]?.length === 0);

describe('keys', () => {
  const rows = [row(null, [56, 58]), row(null, [59, 61]), row(null, [62, 64])];
  // Key 60: two keys up is 62, the first of the third row; two down is 58, the last of the first.
  test.each<[number, boolean[]]>([
    [0, [false, true, false]],
    [1, [false, true, false]],
    [2, [true, true, true]],
  ])('%i', (keys, expected) => {
    expect(plainly(rows, [on(0, 60)], { keys, velocity: 0 })).toEqual(expected);
  });

  test('a note that plays nothing itself has room as well', () => {
    expect(plainly(rows, [on(0, 66)], { keys: 2, velocity: 0 })).toEqual([false, false, true]);
    expect(plainly(rows, [on(0, 67)], { keys: 2, velocity: 0 })).toEqual([false, false, false]);
  });

  test('the ends of the keyboard', () => {
    const ends = [row(null, [0, 0]), row(null, [127, 127])];
    expect(plainly(ends, [on(0, 1), on(0, 126)], { keys: 127, velocity: 0 })).toEqual([true, true]);
  });
});

describe('velocities', () => {
  const rows = [row(null, [60, 60], [1, 40]), row(null, [60, 60], [41, 80])];
  test.each<[number, boolean[]]>([
    [19, [false, true]],
    [20, [true, true]], // 60 - 20 = 40
  ])('%i steps', (velocity, expected) => {
    expect(plainly(rows, [on(0, 60)], { keys: 0, velocity })).toEqual(expected);
  });

  test('never down to 0', () => {
    const zero = [row(null, [60, 60], [0, 0])];
    expect(plainly(zero, [on(0, 60, 3)], { keys: 0, velocity: 127 })).toEqual([false]);
  });

  test('keys and velocities at once: the corner counts', () => {
    const corner = [row(null, [61, 61], [61, 61])];
    expect(plainly(corner, [on(0, 60)], { keys: 1, velocity: 1 })).toEqual([true]);
    expect(plainly(corner, [on(0, 60)], { keys: 1, velocity: 0 })).toEqual([false]);
    expect(plainly(corner, [on(0, 60)], { keys: 0, velocity: 1 })).toEqual([false]);
  });
});

describe('switches', () => {
  const sustain = 24;
  const pluck = 26;
  const rows = [row(sustain, [60, 60]), row(sustain, [61, 61]), row(pluck, [61, 61])];

  test('the next key under the same switch, not under another', () => {
    const cue = [on(0, sustain), on(500, 60)];
    expect(plainly(rows, cue, { keys: 1, velocity: 0 })).toEqual([true, true, false]);
  });

  test('a switch is not widened into another switch', () => {
    const cue = [on(0, 25), on(500, sustain), on(1000, 60)];
    expect(plainly(rows, cue, { keys: 1, velocity: 0 })).toEqual([true, true, false]);
  });

  test('a switch that plays nothing is no note: the row above it gets no room from it', () => {
    const near = [row(sustain, [26, 26]), row(sustain, [60, 60])];
    const cue = [on(0, sustain), on(500, sustain), on(1000, 60)];
    expect(plainly(near, cue, { keys: 2, velocity: 0 })).toEqual([false, true]);
    // Were the switch itself a key that some row plays, it would be a note like any other.
    const plays = [...near, row(null, [24, 24])];
    expect(plainly(plays, cue, { keys: 2, velocity: 0 })).toEqual([true, true, true]);
  });

  test('a switch that plays: the keys next to it see its press as it does', () => {
    // Key 60 switches and plays; the row of key 61 stands under its switch, or under sustain.
    const own = [row(60, [60, 60]), row(60, [61, 61]), row(sustain, [61, 61])];
    const cue = [on(0, sustain), on(500, 60)];
    expect(reachedWithHeadroom(own, [[cue]], 0, { keys: 1, velocity: 0 })).toEqual([
      [[]],
      [[]],
      [['order']],
    ]);
  });

  test('a doubt stays with the note', () => {
    // The note and the switch to sustain on one tick, in an unknown state: the copy uses sustain.
    const cue = [on(0, 60), on(0, sustain)];
    expect(reachedWithHeadroom(rows, [[cue]], 0, { keys: 1, velocity: 0 })).toEqual([
      [['order'], ['start-state']],
      [['order'], ['start-state']],
      [],
    ]);
  });
});

test('release rows: room around the key and the velocity of the note that ends', () => {
  const rows = [row(null, [61, 61], [1, 61], true), row(null, [61, 61], [62, 127], true)];
  const cue = [on(0, 60, 60), off(500, 60)];
  expect(plainly(rows, cue, { keys: 1, velocity: 0 })).toEqual([true, false]);
  expect(plainly(rows, cue, { keys: 1, velocity: 2 })).toEqual([true, true]);
  expect(plainly(rows, cue, none)).toEqual([false, false]);
});

test('no headroom is plain reach', () => {
  const rows = [row(24, [60, 62]), row(25, [60, 62], [50, 127]), row(null, [24, 24])];
  const copies = [[[on(0, 24), on(500, 60), on(500, 25)], [on(0, 62)]], [[on(0, 61)]]];
  expect(reachedWithHeadroom(rows, copies, 0.5, none)).toEqual(reachedByAll(rows, copies, 0.5));
});
