/** Hand-worked tables for the doubts `order` and `start-state`, and what random cues must keep. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { minimal } from './doubts.ts';
import {
  control,
  heard,
  instrument,
  keys,
  on,
  presetProbe,
  program,
  sample,
  sysex,
  zone,
} from './probe.ts';
import { randomBank } from './random-bank.ts';
import { randomEvents } from './random-events.ts';
import { writeBank } from './soundfont-bytes.ts';
import type { OracleEvent } from './soundfont-events.ts';
import { chosenPatches, play, readBank } from './soundfont-player.ts';
import { followReader, plainReader } from './soundfont-readers.ts';
import { startsOf } from './soundfont-starts.ts';
import { gmOn, gsReset, rhythmPart } from './sysex.ts';

type Row = [string, OracleEvent[], Record<string, string[]>];

describe('order within a tick', () => {
  const presets = ['0:0', '0:1', '0:2', '0:3', '0:4'];
  test.each<Row>([
    [
      'program, note: the value before the tick too',
      [program(0, 1), on(0)],
      { '0:1': ['plain'], '0:0': ['order'] },
    ],
    [
      'note, program: the value after the note too',
      [program(0, 1), on(5), program(5, 2)],
      { '0:1': ['plain'], '0:2': ['order'] },
    ],
    [
      'a note between two programs has all three',
      [program(0, 1), program(5, 2), on(5), program(5, 3)],
      { '0:2': ['plain'], '0:1': ['order'], '0:3': ['order'] },
    ],
    [
      'after the tick: those set within it, not the one before it',
      [program(0, 1), program(5, 2), program(5, 3), on(9)],
      { '0:3': ['plain'], '0:2': ['order'] },
    ],
    [
      'until the next tick that sets the patch',
      [program(5, 2), program(5, 3), program(7, 4), on(9)],
      { '0:4': ['plain'] },
    ],
    [
      'within that next tick they still count as the value before it',
      [program(5, 2), program(5, 3), program(7, 4), on(7)],
      { '0:4': ['plain'], '0:3': ['order'], '0:2': ['order'] },
    ],
    [
      'a tick that sets another channel ends nothing',
      [program(5, 2), program(5, 3), program(7, 4, 1), on(9)],
      { '0:3': ['plain'], '0:2': ['order'] },
    ],
    [
      'the same program twice leaves no doubt behind',
      [program(5, 2), program(5, 2), on(9)],
      { '0:2': ['plain'] },
    ],
    [
      'a reset counts as setting, and a reader that obeys nothing keeps the program',
      [program(0, 1), sysex(5, gsReset(0x7f)), on(5)],
      { '0:0': ['plain'], '0:1': ['order', 'engine'] },
    ],
    [
      'a reset and a program on one tick',
      [program(0, 1), sysex(5, gmOn(0x7f)), program(5, 2), on(9)],
      { '0:2': ['plain'], '0:0': ['order'] },
    ],
    [
      'a rhythm part counts as setting',
      [program(0, 1), on(5), sysex(5, rhythmPart(0x10, 1, 0))],
      { '0:1': ['plain'], '0:0': ['order'] },
    ],
  ])('%s', (_, events, expected) => {
    // Nothing chosen elsewhere, so that the start state stays out of these tables.
    expect(heard(presets, events, new Map())).toEqual(expected);
  });
});

describe('banks and programs on one tick', () => {
  const presets = ['0:0', '0:2', '0:5', '3:2', '3:5', '7:2', '7:5', '9:2', '9:5'];
  test.each<Row>([
    [
      'a program after a bank select may have come before it',
      // Modes gm and xg ignore bank 3, and mode mma finds no bank 384: 0:5 for all of them.
      [control(5, 0, 3), program(5, 5), on(5)],
      { '3:5': ['plain'], '0:5': ['order', 'engine'], '0:0': ['order'] },
    ],
    [
      'a program before a bank select may have come after it',
      [program(5, 5), control(5, 0, 3), on(5)],
      { '0:5': ['plain'], '3:5': ['order'], '0:0': ['order'] },
    ],
    [
      'and it stays open after the tick',
      [program(5, 5), control(5, 0, 3), on(9)],
      { '0:5': ['plain'], '3:5': ['order'] },
    ],
    [
      'on two ticks there is no doubt',
      [control(4, 0, 3), program(5, 5), on(9)],
      { '3:5': ['plain'], '0:5': ['engine'] },
    ],
    [
      'every program with every bank, the bank at the start of the tick among them',
      [control(5, 0, 3), program(5, 5), control(5, 0, 7), program(5, 2), on(9)],
      {
        '7:2': ['plain'],
        '0:2': ['order', 'engine'],
        '0:5': ['order'],
        '3:2': ['order'],
        '3:5': ['order'],
        '7:5': ['order'],
      },
    ],
    [
      "another reader's own doubt and the order of its tick, together",
      [control(4, 32, 9), program(5, 5), program(5, 2), on(9)],
      {
        '0:2': ['plain'],
        '0:5': ['order'],
        '9:2': ['engine'],
        '9:5': ['order+engine'],
      },
    ],
    [
      'controller 32 is a bank select too',
      [program(5, 5), control(5, 32, 9), on(9)],
      { '0:5': ['plain'], '9:5': ['order+engine'] },
    ],
    [
      "another channel's bank select does not count",
      [control(5, 0, 3, 1), program(5, 5), on(9)],
      { '0:5': ['plain'] },
    ],
  ])('%s', (_, events, expected) => {
    expect(heard(presets, events, new Map())).toEqual(expected);
  });
});

describe('start state', () => {
  const presets = ['0:0', '0:1', '0:2', '0:5', '3:5', '128:0', '128:5'];
  test.each<Row>([
    [
      'before the first program: what the channel plays elsewhere in the cue',
      [on(0), program(5, 5), on(6), program(7, 2)],
      { '0:0': ['plain'], '0:5': ['plain'], '0:2': ['startState'] },
    ],
    ['a channel that never chooses is sure', [on(0), program(5, 5, 1)], { '0:0': ['plain'] }],
    [
      'after the first program there is none',
      [program(0, 5), on(3), program(5, 2)],
      { '0:5': ['plain'] },
    ],
    [
      'on the tick of the first program, before it',
      [on(5), program(5, 5)],
      { '0:0': ['plain'], '0:5': ['startState', 'order'] },
    ],
    [
      'on the tick of the first program, after it: only if the order is wrong too',
      [program(5, 5), on(5), program(9, 2)],
      { '0:5': ['plain'], '0:0': ['order'], '0:2': ['startState+order'] },
    ],
    [
      'a reset is a choice',
      [sysex(0, gmOn(0x7f)), on(3), program(5, 5)],
      // The readers that obey nothing are still at power-on, without a start state of their own.
      { '0:0': ['plain'] },
    ],
    [
      'banks and programs on one tick: every combination was chosen',
      [on(0), control(5, 0, 3), program(5, 5)],
      { '0:0': ['plain'], '3:5': ['startState'], '0:5': ['startState'] },
    ],
    ['drums', [on(0, 9), program(5, 5, 9)], { '128:0': ['plain'], '128:5': ['startState'] }],
  ])('%s', (_, events, expected) => {
    expect(heard(presets, events)).toEqual(expected);
  });

  test('patches chosen in other cues are given', () => {
    const chosen = new Map([
      [0, [{ bank: 0, program: 2 }]],
      [1, [{ bank: 0, program: 1 }]],
    ]);
    expect(heard(presets, [on(0), program(5, 5)], chosen)).toEqual({
      '0:0': ['plain'],
      '0:2': ['startState'],
    });
  });

  test('what a cue chooses, by channel', () => {
    const events = [
      program(0, 5),
      control(5, 0, 3),
      program(5, 5),
      sysex(6, rhythmPart(0x7f, 2, 1)),
    ];
    expect([...chosenPatches(events)]).toEqual([
      [
        0,
        [
          { bank: 0, program: 5 },
          { bank: 3, program: 5 },
        ],
      ],
      [1, [{ bank: 128, program: 0 }]],
    ]);
  });

  test('channels where it was asked', () => {
    const events = [on(0), program(0, 5), on(1, 1), program(2, 5, 2), on(3, 2)];
    expect([...play(presetProbe(['0:0']), events).open]).toEqual([0, 1]);
  });

  test('doubts of several kinds add up', () => {
    const bank = readBank(
      writeBank({
        presets: [
          { name: 'a', bank: 0, program: 5, zones: [zone(keys(0, 9)), zone(instrument(0))] },
        ],
        instruments: [{ name: 'a', zones: [zone(sample(0))] }],
        samples: [{ name: 'noise' }],
      }),
    );
    // Program 5 only by the start state, key 60 only without the global range.
    expect([...play(bank, [on(0), program(5, 5)]).zones]).toEqual([[0, [1 + 128]]]);
  });
});

describe('random cues on random banks', () => {
  /** The doubts that a bank can raise here: start-state, order, engine. */
  const possible = 1 + 4 + 128;

  test('a zone has the sets of its pairs, minimal; plain ones are those with voices', () => {
    fc.assert(
      fc.property(randomBank(), randomEvents(), (plan, events) => {
        const result = play(readBank(writeBank(plan)), events);
        const byZone = new Map<number, number[]>();
        for (const [pair, sets] of result.pairs) {
          const ibag = Number(pair.split(',')[2]);
          byZone.set(ibag, minimal([...(byZone.get(ibag) ?? []), ...sets]));
        }
        expect(new Map(result.zones)).toEqual(byZone);
        for (const sets of result.zones.values()) {
          expect(sets).toEqual(minimal(sets));
          expect(sets.every((set) => (set & ~possible) === 0)).toBe(true);
        }
        const anyPlain = [...result.zones.values()].some((sets) => sets.includes(0));
        expect(result.plainStarts.size > 0).toBe(anyPlain);
      }),
      { numRuns: 30 },
    );
  });

  test('the generators meet what they are for', () => {
    const met = new Set<string>();
    const cues = fc.sample(fc.tuple(randomBank(), randomEvents()), { numRuns: 80, seed: 7 });
    for (const [plan, events] of cues) {
      const bank = readBank(writeBank(plan));
      const result = play(bank, events);
      for (const sets of result.zones.values()) for (const set of sets) met.add(`doubts ${set}`);
      if (events.some(({ kind }) => kind === 'note-on') && result.zones.size === 0)
        met.add('silence');
      if (bank.instruments.some(({ global }) => global?.keys)) met.add('global keys');
      if (bank.presets.some(({ global }) => global?.velocities)) met.add('global velocities');
      if (bank.presets.length < plan.presets.length) met.add('preset without zones');
      if (result.plainStarts.size > 0 && result.open.size === 0) met.add('all programs chosen');
      // A strike that only a loose list brings back: at that note-off nothing starts plainly.
      const starts = startsOf(events, followReader(plainReader, events));
      const plainly = new Set(
        starts.filter(({ doubts }) => doubts === 0).map(({ index }) => index),
      );
      if (starts.some(({ index }) => !plainly.has(index))) met.add('loose start alone');
      expect(events.length).toBeGreaterThanOrEqual(5);
      expect(events.length).toBeLessThanOrEqual(60);
    }
    for (const set of [0, 1, 4, 128, 129, 132]) expect(met).toContain(`doubts ${set}`);
    const others = ['silence', 'global keys', 'global velocities', 'preset without zones'];
    for (const name of [...others, 'all programs chosen', 'loose start alone'])
      expect(met).toContain(name);
  });
});
