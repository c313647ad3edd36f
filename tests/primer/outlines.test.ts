import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Instrument } from '../../src/instruments/instrument.ts';
import { outlineInstrument } from '../../src/instruments/outline/outline-instrument.ts';
import { parseOutline } from '../../src/instruments/outline/reading/parse-outline.ts';
import { zoneDoubts } from '../../src/keep/reach.ts';
import { plain } from '../../src/terms/doubt.ts';
import { outlineStyle, randomOutline } from '../oracle/outline-random.ts';
import { randomOutlineReel } from '../oracle/outline-random-events.ts';
import { outlineText } from '../oracle/outline-text.ts';
import type { OracleEvent } from '../oracle/soundfont-events.ts';
import { cc, off, on, usageOf } from '../playback/hand-made.ts';
import { inSeconds, usageOfSfz } from '../playback/sfz-cue.ts';
import { expectLawful } from './lawful.ts';
import { copyOf, groupOf, written, type Written } from './priming.ts';

const read = (text: string): Instrument => {
  const { outline, findings } = parseOutline('horns.yaml', new TextEncoder().encode(text));
  return outlineInstrument(outline, 'digest', findings);
};

const outlined = (...articulations: readonly string[]): Instrument =>
  read(['middle-c: C4', 'seconds: 1', 'articulations:', ...articulations, ''].join('\n'));

/** Zones that a cue reaches, doubtful ones too, and those that it plays for certain. */
const reachedBy = (instrument: Instrument, events: readonly OracleEvent[]) => {
  const doubts = zoneDoubts(instrument, [usageOf(instrument, events)]);
  const zones = [...doubts.keys()];
  return {
    all: zones.filter((zone) => doubts[zone]!.length > 0),
    plainly: zones.filter((zone) => doubts[zone]![0] === plain),
  };
};

const namesOf = ({ zones }: Instrument, some: readonly number[]): readonly string[] =>
  some.map((zone) => zones[zone]!.key!);

/** A line bound together, a note alone, then two that do not touch; half a second is 480 ticks. */
const line = [
  ...[on(0, 60), on(400, 64), off(500, 60), on(800, 62), off(900, 64), off(1300, 62)],
  ...[on(4000, 65), off(4400, 65), on(6000, 67), off(6400, 67)],
];

/** What the primer of all that a cue reaches does not load, by name. */
const lacking = (instrument: Instrument, events: readonly OracleEvent[]): readonly string[] => {
  const { all, plainly } = reachedBy(instrument, events);
  // A cue that reaches nothing would prove nothing.
  expect(plainly.length).toBeGreaterThan(1);
  const one = written(groupOf(copyOf(instrument, all)));
  expectLawful(one);
  const [failed] = one.synthesis.notPrimed;
  const certain = new Set(plainly);
  return namesOf(
    instrument,
    failed!.filter(({ zone }) => certain.has(zone)).map(({ zone }) => zone),
  );
};

describe('all that a small cue reaches is loaded', () => {
  const legato = (more: string): Instrument =>
    outlined(
      '  long:',
      '    keys: C4-G4',
      '    sampled: C4..G4 every 2',
      '    stretch: down',
      `    legato: { ${more} }`,
    );

  test.each([
    ['a window', 'intervals: 4, overlap: 80 ms, returns: no'],
    ['no window, as far as is known', 'intervals: 4, returns: no'],
    ['back to a held key', 'intervals: 4, overlap: 80 ms, returns: yes'],
    ['back, as far as is known', 'intervals: 4, overlap: 80 ms'],
    ['intervals left out', 'overlap: 80 ms, returns: yes'],
    ['nothing said', 'layers: 2'],
  ])('transitions: %s', (_, more) => {
    expect(lacking(legato(more), line)).toEqual([]);
  });

  test.each(['{ at: release }', '{ at: note-off }', 'yes', '{ round-robins: 2, at: release }'])(
    'releases: %s',
    (releases) => {
      const made = outlined('  long:', '    keys: C4-G4', `    releases: ${releases}`);
      const pedalled = [...[cc(0, 64, 127), on(10, 60), off(400, 60), cc(900, 64, 0)], ...line];
      expect(lacking(made, pedalled)).toEqual([]);
    },
  );

  test('layers by controller, with releases and transitions of layers of their own', () => {
    const made = outlined(
      '  long:',
      '    keys: C4-G4',
      '    sampled: [C4, E4, G4]',
      '    stretch: up',
      '    layers: { cc1: [0-63, 50-127], velocity: 2 }',
      '    releases: { at: release, layers: { cc1: [0-63, 64-127] } }',
      '    legato: { intervals: 4, overlap: 80 ms, layers: { cc11: [0-63, 64-127] } }',
    );
    const moved = [cc(0, 1, 20), cc(0, 11, 100), ...line, cc(7000, 1, 100), cc(7000, 11, 0)];
    const again = line.map((one) => ({ ...one, tick: one.tick + 8000 }));
    expect(lacking(made, [...moved, ...again])).toEqual([]);
  });

  test('key switches, one of which plays a note of the other articulation', () => {
    const made = outlined(
      '  long: { switch: C1, keys: C4-G4 }',
      '  short: { switch: C4, keys: C4-G4, round-robins: { count: 3 } }',
    );
    const [low, playing] = [24, 60];
    const both = [
      on(0, low),
      off(50, low),
      ...line.map((one) => ({ ...one, tick: one.tick + 99 })),
    ];
    const more = [on(8000, playing), off(8200, playing), on(9000, 67), off(9300, 67)];
    expect(lacking(made, [...both, ...more])).toEqual([]);
  });

  test('a switch that plays is not pressed where that would start what was dropped', () => {
    const made = outlined(
      '  long: { switch: C1, keys: C4-G4, sampled: "C4|G4", stretch: down, round-robins: 1 }',
      '  short: { switch: C4, keys: G4 }',
    );
    const zone = (name: string): number => made.zones.findIndex(({ key }) => key === name);
    const one = written(groupOf(copyOf(made, [zone('long G4'), zone('short G4')])));
    expectLawful(one);
    // As C4 goes down `long` may still be chosen, and plays it.
    expect(one.synthesis.primed).toEqual([[zone('long G4')]]);
    expect(one.synthesis.notPrimed).toEqual([[{ zone: zone('short G4'), because: 'others' }]]);
    const { status, data1 } = one.score.tracks[0]!.events;
    const keys = [...status.keys()].filter((i) => status[i]! >> 4 === 9).map((i) => data1[i]!);
    expect(keys).not.toContain(60);
    expect(keys).toContain(24);
  });

  test('borrowed takes', () => {
    const made = outlined(
      '  short:',
      '    keys: C4-G4',
      '    sampled: C4..G4 every 2',
      '    stretch: nearest',
      '    round-robins: { count: 4, borrow: 2 }',
    );
    expect(lacking(made, line)).toEqual([]);
    const { synthesis } = written(groupOf(copyOf(made, made.zones.keys())));
    expect(synthesis.notPrimed).toEqual([[]]);
  });

  test('what asks for keys that are held, and what asks for none', () => {
    const made = outlined(
      '  solo: { keys: C4-G4, switch: none, when: { held: 1-1 } }',
      '  unison: { keys: C4-G4, switch: none, when: { held: 2-3, velocity: 64-127 } }',
      '  tutti: { keys: C4-G4, switch: none, when: { held: 3-4, controllers: { 20: 64-127 } } }',
    );
    const chord = [cc(0, 20, 100), on(10, 60), on(20, 62), on(30, 64)];
    const end = [off(900, 60), off(900, 62), off(900, 64)];
    const names = namesOf(made, reachedBy(made, [...chord, ...end]).plainly);
    expect(names).toEqual(['solo C4-G4', 'unison C4-G4', 'tutti C4-G4']);
    expect(lacking(made, [...chord, ...end])).toEqual([]);
  });
});

const runs = Number(process.env['KEEPSET_PRIMER_RUNS'] ?? 25);

const cases = randomOutline().chain(({ outline, selecting }) =>
  fc.tuple(fc.constant(outline), randomOutlineReel(selecting), outlineStyle),
);

const keeps = fc.array(fc.boolean(), { minLength: 40, maxLength: 40 });

/** How many zones that a cue plays for certain are primed, over a whole property. */
const tally = { wanted: 0, primed: 0 };

const countPrimed = ({ synthesis }: Written, plainly: ReadonlySet<number>): void => {
  tally.wanted += plainly.size;
  tally.primed += synthesis.primed[0]!.filter((zone) => plainly.has(zone)).length;
};

describe('random outlines', { timeout: 600_000 }, () => {
  test('what a random reel keeps', () => {
    tally.wanted = tally.primed = 0;
    fc.assert(
      fc.property(cases, ([outline, reel, style]) => {
        const instrument = read(outlineText(outline, style));
        const files = reel.map((cue, i) => usageOfSfz(instrument, inSeconds(cue), `c${String(i)}`));
        const reached = zoneDoubts(instrument, files);
        const zones = [...reached.keys()];
        const one = written(
          groupOf(
            copyOf(
              instrument,
              zones.filter((zone) => reached[zone]!.length > 0),
            ),
          ),
        );
        expectLawful(one);
        countPrimed(one, new Set(zones.filter((zone) => reached[zone]![0] === plain)));
      }),
      { numRuns: runs, seed: 8 },
    );
    expect(tally.wanted).toBeGreaterThan(runs);
    expect(tally.primed / tally.wanted).toBeGreaterThan(0.95);
  });

  test('any zones at all', () => {
    fc.assert(
      fc.property(cases, keeps, ([outline, , style], kept) => {
        const instrument = read(outlineText(outline, style));
        const zones = [...instrument.zones.keys()].filter((zone) => kept[zone % 40] === true);
        expectLawful(written(groupOf(copyOf(instrument, zones))));
      }),
      { numRuns: runs, seed: 9 },
    );
  });
});
