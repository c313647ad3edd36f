import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  standardHold,
  type Hold,
  type Program,
  type Start,
} from '../../src/instruments/program.ts';
import { partsOf } from '../../src/midi/parts.ts';
import { copyStream } from '../../src/playback/copies.ts';
import { readsWithPedals } from '../../src/playback/pedal-reads.ts';
import { soundingOf, type SoundingOptions } from '../../src/playback/sounding.ts';
import type { TimeSpan } from '../../src/playback/time-spans.ts';
import type { OracleEvent } from '../oracle/soundfont-events.ts';
import { cc, instrumentOf, off, on, start } from './hand-made.ts';
import { scoreOf } from './oracle-score.ts';
import { routedWhole } from './whole-cue.ts';

type Parts = Partial<Pick<Program, 'signals' | 'holds' | 'scope' | 'retriggers'>>;

/** 480 ticks a quarter at 120 a minute: 960 ticks are a second. */
const second = 960;

const sounding = (
  starts: readonly Start[],
  events: readonly OracleEvent[],
  parts: Parts = {},
  options: SoundingOptions = {},
): readonly TimeSpan[] => {
  const made = instrumentOf({ signals: [], gates: [[]], starts }, [1]);
  const instrument = { ...made, program: { ...made.program, ...parts } };
  const score = scoreOf(events);
  const [copy] = routedWhole(instrument, score, partsOf(score)).copies;
  if (copy === undefined) return [];
  const { program } = instrument;
  const stream = copyStream(score, copy, program, readsWithPedals(program));
  return soundingOf(program, stream, options);
};

const spans = (...pairs: readonly (readonly [from: number, to: number])[]): readonly TimeSpan[] =>
  pairs.map(([from, to]) => ({ from, to }));

const oneShot: Hold = { ...standardHold, oneShot: true };
const sustain = 64;
const sostenuto = 66;

/** A note from one second to another. */
const note = (from: number, to: number, key = 60): readonly OracleEvent[] => [
  on(from * second, key),
  off(to * second, key),
];

// All by hand, from what the words of the function say.
describe('when a copy may sound', () => {
  const half = [start(0, { releaseSeconds: 0.5 })];

  test('a note, until it has faded; nothing without notes', () => {
    expect(sounding(half, note(1, 2))).toEqual(spans([1, 2.5]));
    // A part needs an event.
    expect(sounding(half, [cc(0, 7, 100)])).toEqual([]);
  });

  test('notes that overlap, or touch by their fades, are one stretch', () => {
    expect(sounding(half, [...note(1, 2), ...note(2.5, 3), ...note(4, 5)])).toEqual(
      spans([1, 3.5], [4, 5.5]),
    );
  });

  test('the longest fade of all zones counts, but for those that can not start', () => {
    const zones = [...half, start(0, { releaseSeconds: 2, keys: [90, 90] })];
    expect(sounding(zones, note(1, 2))).toEqual(spans([1, 4]));
    const tied = [...half, start(0, { releaseSeconds: 2, keys: [Infinity, -Infinity] })];
    expect(sounding(tied, note(1, 2))).toEqual(spans([1, 2.5]));
  });

  test('a fade of unknown length: to the end of the cue, or as long as is said', () => {
    const zones = [start(0, { releaseSeconds: Infinity })];
    expect(sounding(zones, note(1, 2))).toEqual(spans([1, Infinity]));
    expect(sounding(zones, note(1, 2), {}, { unknown: 3 })).toEqual(spans([1, 5]));
    // A known fade that is longer stays as long as it is.
    const mixed = [...zones, start(0, { releaseSeconds: 30 })];
    expect(sounding(mixed, note(1, 2), {}, { unknown: 3 })).toEqual(spans([1, 32]));
    // Cues share the file: one that ends at second 2 has ended what is let go there.
    const borders = [2, 4];
    expect(sounding(zones, note(1, 2), {}, { borders })).toEqual(spans([1, 2]));
    expect(sounding(zones, note(1, 3), {}, { borders })).toEqual(spans([1, 4]));
  });

  test('a key that never goes up', () => {
    expect(sounding(half, [on(second, 60)])).toEqual(spans([1, Infinity]));
    // Two strikes, one note-off.
    expect(sounding(half, [on(second, 60), ...note(2, 3)])).toEqual(spans([1, Infinity]));
    const allOff = [on(second, 60), cc(2 * second, 123, 0)];
    expect(sounding(half, allOff)).toEqual(spans([1, 2.5]));
    // What another channel's message says is of no matter.
    expect(sounding(half, [on(second, 60), cc(2 * second, 123, 0, 1)])).toEqual(
      spans([1, Infinity]),
    );
  });

  test.each([sustain, sostenuto])('pedal %d holds what is let go under it', (pedal) => {
    const events = [on(0, 60), cc(480, pedal, 127), off(second, 60), cc(3 * second, pedal, 0)];
    expect(sounding(half, events)).toEqual(spans([0, 3.5]));
    // A pedal that is pressed afterwards holds nothing, and no pedal holds without a key.
    const late = [...note(0, 1), cc(2 * second, pedal, 127), cc(4 * second, pedal, 0)];
    expect(sounding(half, late)).toEqual(spans([0, 1.5]));
  });

  test('pedal and note-off on one tick: whichever comes first in the file, it holds', () => {
    const before = [
      on(0, 60),
      cc(second, sustain, 127),
      off(second, 60),
      cc(3 * second, sustain, 0),
    ];
    const behind = [
      on(0, 60),
      off(second, 60),
      cc(second, sustain, 127),
      cc(3 * second, sustain, 0),
    ];
    expect(sounding(half, before)).toEqual(spans([0, 3.5]));
    expect(sounding(half, behind)).toEqual(spans([0, 3.5]));
  });

  test('the reading counts under which it lasts longest', () => {
    const [plain] = standardHold.pedals;
    const readings = [
      plain!,
      { ...plain!, sustain: { ...plain!.sustain!, down: 1 }, doubt: 1 },
      { ...plain!, reset: 'ignored' as const, doubt: 1 },
    ];
    const holds: readonly Hold[] = [{ oneShot: false, pedals: readings }];
    const slightly = [on(0, 60), cc(480, sustain, 10), off(second, 60), cc(3 * second, sustain, 0)];
    expect(sounding(half, slightly)).toEqual(spans([0, 1.5]));
    expect(sounding(half, slightly, { holds })).toEqual(spans([0, 3.5]));
    const reset = [
      ...[on(0, 60), cc(480, sustain, 127), off(second, 60), cc(2 * second, 121, 0)],
      cc(3 * second, sustain, 0),
    ];
    expect(sounding(half, reset)).toEqual(spans([0, 2.5]));
    expect(sounding(half, reset, { holds })).toEqual(spans([0, 3.5]));
  });

  test('a bank has pedals for each channel, any other instrument the same for all', () => {
    const events = [
      on(0, 60),
      cc(480, sustain, 127, 1),
      off(second, 60),
      cc(3 * second, sustain, 0, 1),
    ];
    expect(sounding(half, events, { scope: 'channel' })).toEqual(spans([0, 1.5]));
    expect(sounding(half, events, { scope: 'copy' })).toEqual(spans([0, 3.5]));
  });

  test('what plays to its end lasts from its start, pedals or not', () => {
    const hit = [start(0, { releaseSeconds: 2, hold: 0 })];
    const pedal = [cc(0, sustain, 127), ...note(1, 1.25)];
    expect(sounding(hit, pedal, { holds: [oneShot] })).toEqual(spans([1, 3]));
    // Longer than its sound while its key is down: more than enough.
    expect(sounding(hit, note(1, 4), { holds: [oneShot] })).toEqual(spans([1, 4]));
  });

  test('what starts at the release lasts from there', () => {
    const noise = start(0, { event: 'release', releaseSeconds: 3 });
    expect(sounding([...half, noise], note(1, 2))).toEqual(spans([1, 5]));
    const byKey = start(0, { event: 'note-off', hold: 1, releaseSeconds: 3 });
    const holds = [standardHold, oneShot];
    expect(sounding([...half, byKey], note(1, 2), { holds })).toEqual(spans([1, 5]));
  });

  test('a switch is needed while it is down: no fade and no pedal', () => {
    const played = [start(0, { releaseSeconds: Infinity, keys: [40, 90] })];
    const events = [cc(0, sustain, 127), ...note(1, 1.5, 24)];
    expect(sounding(played, events)).toEqual(spans([1, 1.5]));
    expect(sounding(played, [...events, ...note(3, 4)])).toEqual(spans([1, 1.5], [3, Infinity]));
    // Where any key cuts others short, it may well begin a sound.
    const cut = start(0, { event: 'cut', keys: [40, 90], releaseSeconds: 2 });
    expect(sounding([start(0, { keys: [40, 90] }), cut], note(1, 1.5, 24))).toEqual(
      spans([1, 3.5]),
    );
    // Coarse tuning may move the key to one that plays.
    const tuned = [cc(0, 101, 0), cc(0, 100, 2), cc(0, 6, 88), ...note(1, 1.5, 24)];
    expect(sounding(played, tuned)).toEqual(spans([1, Infinity]));
  });

  test('a message that starts a zone is a sound where its value does so', () => {
    const signals = [{ kind: 'controller', number: 20, initial: null } as const];
    const zone = start(0, { event: 'change', change: 0, keys: [64, 127], releaseSeconds: 2 });
    const events = [cc(0, 20, 10), cc(second, 20, 100), cc(9 * second, 20, 0), ...note(5, 6)];
    const ordered = [...events].sort((a, b) => a.tick - b.tick);
    const holds = [oneShot];
    expect(sounding([zone], ordered, { signals, holds })).toEqual(spans([1, 3], [5, 6]));
    // Nothing lets it go.
    expect(sounding([zone], ordered, { signals }, { unknown: 1 })).toEqual(spans([1, Infinity]));
  });

  test('a player of one note at a time may go back to a key', () => {
    const hit = [start(0, { releaseSeconds: 2 })];
    const events = [cc(0, 68, 127), ...note(1, 1.25), ...note(4, 4.25)];
    const legato = { holds: [oneShot], retriggers: true };
    expect(sounding(hit, events, legato)).toEqual(spans([1, 3.25], [4, 6.25]));
    // All notes off does not end a key for each of them.
    const half2 = [start(0, { releaseSeconds: 0.5 })];
    const stopped = [cc(0, 68, 127), on(0, 60), cc(second, 123, 0), off(3 * second, 60)];
    expect(sounding(half2, stopped, { retriggers: true })).toEqual(spans([0, 3.5]));
  });
});

/** Random cues: few keys and ticks, so that they meet. */
const event = fc.oneof(
  {
    arbitrary: fc.tuple(fc.constant('note' as const), fc.nat(3), fc.integer({ min: 1, max: 9 })),
    weight: 3,
  },
  {
    arbitrary: fc.tuple(
      fc.constant('pedal' as const),
      fc.constantFrom(64, 66),
      fc.constantFrom(0, 127),
    ),
    weight: 2,
  },
);
const placed = fc.array(fc.tuple(fc.nat(40), event), { maxLength: 20 });

const eventsOf = (list: readonly (readonly [number, readonly [string, number, number]])[]) =>
  list
    .flatMap(([at, [kind, a, b]]): OracleEvent[] =>
      kind === 'note' ? [on(at * 240, 60 + a), off((at + b) * 240, 60 + a)] : [cc(at * 240, a, b)],
    )
    .sort((a, b) => a.tick - b.tick);

/**
 * A note by itself, by the words of MIDI 1.0 (controllers 64 and 66), on a tick of its own for its end:
 * its tick of silence, fades left out. Written without the code under test.
 */
const endOf = (list: readonly OracleEvent[], index: number): number => {
  const struck = list[index] as Extract<OracleEvent, { kind: 'note-on' }>;
  // Strikes of a key end in the order in which they began.
  const before = list.slice(0, index).reduce((sum, one) => {
    if (one.kind === 'note-on' && one.key === struck.key) return sum + 1;
    return one.kind === 'note-off' && one.key === struck.key ? Math.max(0, sum - 1) : sum;
  }, 0);
  let waits = before;
  let keyDown = true;
  let sus = false;
  let sost = false;
  let caught = false;
  for (const [i, one] of list.entries()) {
    const isLater = i > index;
    if (one.kind === 'controller') {
      const down = one.value >= 64;
      if (one.number === 64) sus = down;
      else {
        if (isLater && down && !sost && keyDown) caught = true;
        if (!down) caught = false;
        sost = down;
      }
    } else if (isLater && one.kind === 'note-off' && one.key === struck.key) {
      if (waits > 0) waits--;
      else keyDown = false;
    }
    if (isLater && !keyDown && !sus && !caught) return one.tick;
  }
  return Infinity;
};

const covers = (list: readonly TimeSpan[], from: number, to: number): boolean =>
  list.some((span) => span.from <= from && span.to >= to);

describe('laws', () => {
  const fade = 0.125;
  const zones = [start(0, { releaseSeconds: fade })];

  test('every note lies in a stretch, from its key to its fade, as a naive player holds it', () => {
    let notes = 0;
    fc.assert(
      fc.property(placed, (list) => {
        const events = eventsOf(list);
        const found = sounding(zones, events);
        events.forEach((one, i) => {
          if (one.kind !== 'note-on') return;
          notes++;
          const end = endOf(events, i) / second + fade;
          expect(covers(found, one.tick / second, end)).toBe(true);
        });
      }),
      { numRuns: 300 },
    );
    expect(notes).toBeGreaterThan(500);
  });

  test('stretches begin with notes, ascend and lie apart', () => {
    fc.assert(
      fc.property(placed, (list) => {
        const events = eventsOf(list);
        const strikes = new Set(
          events.filter(({ kind }) => kind === 'note-on').map(({ tick }) => tick / second),
        );
        let last = -1;
        for (const { from, to } of sounding(zones, events)) {
          expect(strikes.has(from)).toBe(true);
          expect(from).toBeGreaterThan(last);
          expect(to).toBeGreaterThan(from);
          last = to;
        }
      }),
    );
  });

  test('further notes take nothing away', () => {
    fc.assert(
      fc.property(placed, placed, (list, more) => {
        const notes = more.filter(([, [kind]]) => kind === 'note');
        const found = sounding(zones, eventsOf([...list, ...notes]));
        for (const { from, to } of sounding(zones, eventsOf(list))) {
          expect(covers(found, from, to)).toBe(true);
        }
      }),
    );
  });

  test('a longer fade takes nothing away', () => {
    fc.assert(
      fc.property(placed, fc.nat(4), (list, longer) => {
        const events = eventsOf(list);
        const found = sounding([start(0, { releaseSeconds: fade + longer })], events);
        for (const { from, to } of sounding(zones, events)) {
          expect(covers(found, from, to === Infinity ? to : to + longer)).toBe(true);
        }
      }),
    );
  });
});
