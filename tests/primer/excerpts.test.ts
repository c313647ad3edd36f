import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { standardHold, type Program, type Signal } from '../../src/instruments/program.ts';
import { readMidi } from '../../src/midi/read-midi.ts';
import type { Score, Timeline } from '../../src/midi/score.ts';
import { clock } from '../../src/midi/timeline.ts';
import { barStart } from '../../src/primer/excerpts/bar-lines.ts';
import { chooseBars } from '../../src/primer/excerpts/choose-bars.ts';
import { coverAll } from '../../src/primer/excerpts/cover.ts';
import { cutExcerpt } from '../../src/primer/excerpts/cut-excerpt.ts';
import type { ExcerptCopy } from '../../src/primer/excerpts/excerpt-part.ts';
import type { ExcerptEvents } from '../../src/primer/lanes.ts';
import { unchanged, type Transform } from '../../src/template/route.ts';
import { cue, note, type Part } from '../jobs/small-score.ts';

const setOf = (...all: readonly string[]): ReadonlySet<string> => new Set(all);

describe('a cover', () => {
  test('has everything, with nothing that adds nothing', () => {
    const sets = fc.array(fc.array(fc.constantFrom(...'abcdefgh'), { maxLength: 5 }), {
      maxLength: 7,
    });
    fc.assert(
      fc.property(sets, (all) => {
        const covers = all.map((own, taken) => ({ taken, covers: new Set(own) }));
        const found = coverAll(covers);
        const adds = found.flatMap((one) => [...one.adds]);
        expect(adds.sort()).toEqual([...new Set(all.flat())].sort());
        for (const one of found) {
          expect(one.adds.size).toBeGreaterThan(0);
          for (const each of one.adds) expect(all[one.taken]).toContain(each);
        }
        const order = found.map(({ taken }) => taken);
        expect(order).toEqual([...order].sort((a, b) => a - b));
        // Greedy takes at most ln(8) + 1 times the fewest, by a known bound: here at most 3 times.
        expect(found.length).toBeLessThanOrEqual(3 * fewest(all));
      }),
    );
  });

  /** By trying every choice. */
  const fewest = (all: readonly (readonly string[])[]): number => {
    const wanted = new Set(all.flat());
    let best = all.length;
    for (let choice = 0; choice < 2 ** all.length; choice++) {
      const taken = all.filter((_, i) => (choice & (1 << i)) !== 0);
      if (new Set(taken.flat()).size === wanted.size) best = Math.min(best, taken.length);
    }
    return best;
  };

  test('makes one run of bars that touch, and begins as early as is asked', () => {
    const bar = (file: number, number: number, ...zones: readonly string[]) => ({
      taken: { file, bar: number, copies: setOf(`copy ${zones.join('')}`) },
      covers: setOf(...zones),
    });
    const bars = [bar(0, 3, 'a'), bar(0, 4, 'b'), bar(0, 9, 'c'), bar(1, 10, 'd')];
    const runs = (lead: number) =>
      chooseBars(bars, lead).map(({ file, from, to }) => [file, from, to]);
    expect(runs(0)).toEqual([
      [0, 3, 4],
      [0, 9, 9],
      [1, 10, 10],
    ]);
    expect(runs(4)).toEqual([
      [0, 1, 9],
      [1, 6, 10],
    ]);
    expect(chooseBars(bars, 0)[0]!.copies).toEqual(setOf('copy a', 'copy b'));
    expect(chooseBars(bars, 0)[0]!.zones).toEqual(setOf('a', 'b'));
  });
});

test('a bar begins where the clock says so first', () => {
  const meters = fc.array(
    fc.record({
      gap: fc.integer({ min: 1, max: 2_000 }),
      beats: fc.integer({ min: 1, max: 7 }),
      unit: fc.constantFrom(2, 4, 8),
    }),
    { maxLength: 4 },
  );
  fc.assert(
    fc.property(meters, fc.integer({ min: 1, max: 12 }), (changes, bar) => {
      let tick = 0;
      const timeline: Timeline = {
        division: { kind: 'metrical', ticksPerQuarter: 96 },
        tempo: [{ tick: 0, microsecondsPerQuarter: 500_000 }],
        meter: [
          { tick: 0, beats: 4, unit: 4 },
          ...changes.map(({ gap, beats, unit }) => ({ tick: (tick += gap), beats, unit })),
        ],
        markers: [],
        smpteOffset: null,
        timecode: null,
      };
      const end = 3_000;
      const time = clock(timeline);
      const ticks = Array.from({ length: end }, (_, i) => i);
      const first = ticks.find((at) => time.placeAt(at).bar >= bar) ?? end;
      expect(barStart(timeline, bar, end)).toBe(first);
    }),
    { numRuns: 60 },
  );
});

const controller = (tick: number, number: number, value: number): Part['events'][number] => [
  [tick, { type: 'controller', channel: 0, controllerType: number, value } as never],
];

const programWith = (...signals: readonly Signal[]): Program => ({
  scope: 'copy',
  retriggers: false,
  signals,
  gates: [],
  holds: [standardHold],
  starts: [],
  zones: 0,
  articulations: 0,
});

const wheel: Signal = { kind: 'controller', number: 1, initial: null };
const breath: Signal = { kind: 'controller', number: 2, initial: 17 };
const keyswitch: Signal = { kind: 'switch', keys: [[24, 26]], initial: 24 };

const scoreOf = (...events: Part['events']): Score =>
  readMidi(cue({ name: 'Hn', events }), 'cue.mid');

const copyOf = (program: Program, transform: Transform = unchanged): ExcerptCopy => ({
  copy: {
    name: 'Hn',
    instrument: 'horns',
    articulation: null,
    printed: false,
    sources: [{ track: 0, port: 0, channels: 1, transform }],
  },
  program,
  trackOf: () => 7,
});

/** The bar of 4/4 that begins at tick 1920. */
const secondBar = (score: Score, ...copies: readonly ExcerptCopy[]): ExcerptEvents =>
  cutExcerpt(score, score.timelines[0]!, copies, { from: 1_920, to: 3_840 });

/** Messages as text: quarter, status, data. */
const told = ({ messages }: ExcerptEvents): readonly string[] =>
  messages.map(({ quarter, message }) => {
    if (!('status' in message)) return 'system';
    const { status, data1, data2 } = message;
    return `${quarter.toFixed(2)} ${status.toString(16)} ${String(data1)} ${String(data2)}`;
  });

describe('an excerpt', () => {
  test('sets first what stands, then the switch, then plays', () => {
    const score = scoreOf(
      controller(0, 1, 30),
      controller(960, 1, 90),
      note(0, 24),
      note(480, 26),
      note(1_440, 60),
      note(2_400, 62),
      controller(2_500, 1, 100),
      note(4_000, 64),
    );
    const program = programWith(wheel, breath, keyswitch);
    // Settings, 60 ms, a press of 120 ms, 60 ms: less than a quarter note of half a second.
    expect(told(secondBar(score, copyOf(program)))).toEqual([
      '0.00 b0 64 0',
      '0.00 b0 66 0',
      '0.00 b0 2 17',
      '0.00 b0 1 90',
      '0.12 90 26 80',
      '0.34 80 26 64',
      '2.00 90 62 80',
      '2.21 b0 1 100',
      '2.50 80 62 64',
    ]);
  });

  test('lets its notes end, moves controllers until then, and takes no others in', () => {
    const long = (tick: number, length: number, key: number): Part['events'][number] => [
      [tick, { type: 'noteOn', channel: 0, noteNumber: key, velocity: 80 } as never],
      [tick + length, { type: 'noteOff', channel: 0, noteNumber: key, velocity: 64 } as never],
    ];
    const score = scoreOf(
      long(1_800, 400, 59),
      long(3_600, 960, 60),
      long(3_900, 240, 61),
      controller(4_400, 1, 5),
      controller(4_800, 1, 6),
    );
    const result = secondBar(score, copyOf(programWith(wheel)));
    expect(told(result).slice(3)).toEqual(['4.50 90 60 80', '6.17 b0 1 5', '6.50 80 60 64']);
    expect(result.length).toBeGreaterThanOrEqual(6.5);
  });

  test('lifts a pedal that holds on where its bar ends', () => {
    const score = scoreOf(controller(2_000, 64, 127), note(2_400, 60));
    const pedal = told(secondBar(score, copyOf(programWith()))).filter((one) =>
      one.includes(' b0 64 '),
    );
    expect(pedal).toEqual(['0.00 b0 64 0', '1.17 b0 64 127', '5.00 b0 64 0']);
  });

  test('sends a default by the number that arrives as what is meant', () => {
    const transform = {
      ...unchanged,
      controllers: new Map([
        [11, 1],
        [1, 20],
      ]),
    };
    const sent = told(secondBar(scoreOf(note(2_400, 60)), copyOf(programWith(wheel), transform)));
    expect(sent).toContain('0.00 b0 11 0');
    expect(sent.filter((one) => one.includes(' b0 1 '))).toEqual([]);
  });

  test('has a track that drives two copies once', () => {
    const score = scoreOf(controller(0, 1, 9), note(0, 25), note(2_400, 60), note(2_400, 64));
    const one = copyOf(programWith(wheel, keyswitch));
    const other = { ...one, copy: { ...one.copy, name: 'Tba', instrument: 'tuba' } };
    expect(secondBar(score, one, other)).toEqual(secondBar(score, one));
  });

  test('brings its own tempo and meter, and stands on the track it is given', () => {
    const score = scoreOf(
      [
        [0, { type: 'setTempo', microsecondsPerBeat: 1_000_000 } as never],
        [
          0,
          {
            type: 'timeSignature',
            numerator: 3,
            denominator: 4,
            metronome: 24,
            thirtyseconds: 8,
          } as never,
        ],
        [2_880, { type: 'setTempo', microsecondsPerBeat: 250_000 } as never],
      ],
      note(2_400, 60),
    );
    const result = secondBar(score, copyOf(programWith()));
    expect(result.tempo).toEqual([
      { quarter: 0, microsecondsPerQuarter: 1_000_000 },
      { quarter: 3, microsecondsPerQuarter: 250_000 },
    ]);
    expect(result.meter).toEqual([
      { quarter: 0, beats: 3, unit: 4 },
      { quarter: 1, beats: 3, unit: 4 },
    ]);
    for (const { track, port } of result.messages) expect([track, port]).toEqual([7, 0]);
  });
});
