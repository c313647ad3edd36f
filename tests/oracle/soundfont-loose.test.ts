/**
 * Hand-worked tables for the loose one-note mode: engines that keep every strike until its note-off,
 * and stay mono on every channel that a controller 126 has ever covered.
 */
import { describe, expect, test } from 'vitest';
import {
  control,
  heard,
  keys,
  off,
  on,
  program,
  reached,
  sample,
  sysex,
  zone,
  zoneProbe,
} from './probe.ts';
import type { OracleEvent } from './soundfont-events.ts';
import { play } from './soundfont-player.ts';
import { followReader, plainReader } from './soundfont-readers.ts';
import { startsOf } from './soundfont-starts.ts';
import { gsReset, xgReset } from './sysex.ts';

/** Starts in doubt, as `channel,key,velocity at tick`. */
function looseStarts(events: readonly OracleEvent[]): string[] {
  return startsOf(events, followReader(plainReader, events))
    .filter(({ doubts }) => doubts === 128)
    .map(
      ({ channel, key, velocity, index }) =>
        `${channel},${key},${velocity} at ${events[index]?.tick}`,
    );
}

describe('loose one-note mode', () => {
  const legato = control(0, 68, 127);
  const mono = control(0, 126, 1);
  const low = on(1, 0, 60, 80);
  const high = on(2, 0, 64, 100);
  const highOff = off(9, 0, 64);
  const lowAgain = ['0,60,80 at 9'];
  type Row = [string, OracleEvent[], string[]];

  test.each<Row>([
    ['legato pedal', [legato, low, high, highOff], lowAgain],
    ['mono mode', [mono, low, high, highOff], lowAgain],
    ['neither', [low, high, highOff], []],
    ['pedal up again', [legato, low, high, control(8, 68, 0), highOff], []],
    ['pedal lifted by 121', [legato, low, high, control(8, 121, 0), highOff], []],
    ['a note-on of velocity 0', [mono, low, high, on(9, 0, 64, 0)], lowAgain],
    ['a note-off without a strike', [mono, low, high, off(9, 0, 70)], []],
    ['the last strike of all', [mono, low, off(9, 0, 60)], []],
    [
      'an earlier key goes: the last starts again',
      [mono, low, high, off(9, 0, 60)],
      ['0,64,100 at 9'],
    ],
    ['mono mode over', [mono, low, high, control(8, 127, 0), highOff], lowAgain],
    ['mono mode late', [low, high, control(8, 126, 1), highOff], lowAgain],
    ['mono mode for others', [low, high, control(8, 126, 1, 1), highOff], []],
    ...[120, 121, 123, 124, 125].map((number): Row => [
      `${number} takes nothing`,
      [mono, low, high, control(8, number, 0), highOff],
      lowAgain,
    ]),
    [
      'a key struck twice is there twice, the older one goes first',
      [mono, low, on(2, 0, 60, 90), off(9, 0, 60), off(10, 0, 60), off(11, 0, 60)],
      ['0,60,90 at 9'],
    ],
    [
      'a key struck again stands in both places',
      [mono, low, high, on(3, 0, 60, 90), off(4, 0, 60), off(9, 0, 60), off(10, 0, 64)],
      // 60 64 60 → 64 60: 60 again; → 64: 64 again; then none.
      ['0,60,90 at 4', '0,64,100 at 9'],
    ],
    [
      'a reset empties the list',
      [low, high, sysex(3, gsReset(0x10)), control(4, 126, 1), on(5, 0, 64), highOff],
      [],
    ],
    [
      'a reset empties all lists',
      [on(1, 3), sysex(2, xgReset(0x7f)), control(3, 126, 1, 3), on(4, 3, 64), off(9, 3, 64)],
      [],
    ],
    ['a reset ends mono mode', [mono, sysex(0, gsReset(0x10)), low, high, highOff], []],
    ['a reset for others', [mono, low, high, sysex(3, gsReset(0x00)), highOff], lowAgain],
  ])('%s', (_, events, expected) => {
    expect(looseStarts(events)).toEqual(expected);
  });

  // Controller 126 with value n on channel c; then two keys on every channel, and the upper one off.
  test.each([
    [0, 13, [13, 14, 15]],
    [1, 13, [13]],
    [2, 13, [13, 14]],
    [3, 3, [3, 4, 5]],
    [16, 14, [14, 15]],
    [127, 15, [15]],
  ])('126 with value %i on channel index %i covers %j', (value, channel, expected) => {
    const all = Array.from({ length: 16 }, (_, index) => index);
    const notes = [
      ...all.map((index) => on(1, index, 60)),
      ...all.map((index) => on(2, index, 64)),
      ...all.map((index) => off(9, index, 64)),
    ];
    expect(looseStarts([control(0, 126, value, channel), ...notes])).toEqual(
      expected.map((index) => `${index},60,100 at 9`),
    );
    // Mono of one channel, and then poly of it, takes no cover away.
    const overAgain = [control(0, 126, 1, channel), control(0, 127, 0, channel)];
    expect(looseStarts([control(0, 126, value, channel), ...overAgain, ...notes])).toHaveLength(
      expected.length,
    );
  });

  test('it starts with the patch of the moment, in doubt, and is no plain start', () => {
    const struck = [program(-1, 1), mono, low, high, control(3, 127, 0)];
    expect(heard(['0:1', '0:5'], [...struck, program(4, 5), highOff])).toEqual({
      '0:1': ['plain'],
      '0:5': ['engine'],
    });
    expect(heard(['0:1', '0:5'], [...struck, highOff, program(9, 5)])).toEqual({
      '0:1': ['plain'],
      '0:5': ['order+engine'],
    });
    const { plainStarts } = play(zoneProbe([zone(sample(0))]), [...struck, highOff]);
    expect(Object.fromEntries(plainStarts)).toEqual({ '0,60,80': 1, '0,64,100': 1 });
  });

  test('it has tuned keys as any start has', () => {
    const tune = [control(3, 101, 0), control(3, 100, 2), control(3, 6, 66)];
    const bank = zoneProbe([zone(keys(60, 61), sample(0)), zone(keys(62, 62), sample(0))]);
    const events = [mono, low, high, control(3, 127, 0), ...tune, highOff];
    expect(reached(play(bank, events))).toEqual({ 0: ['plain'], 1: ['engine'] });
  });

  test('beside a plain start again it is a second one', () => {
    const events = [mono, low, high, highOff];
    const starts = startsOf(events, followReader(plainReader, events));
    expect(starts.slice(2).map(({ key, doubts }) => [key, doubts])).toEqual([
      [60, 0],
      [60, 128],
    ]);
  });
});
