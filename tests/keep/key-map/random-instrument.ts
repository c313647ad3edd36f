import fc from 'fast-check';
import type { Instrument, Layer } from '../../../src/instruments/instrument.ts';
import { layersOf } from '../../../src/instruments/layers.ts';
import { standardHold, type Start, type StartEvent } from '../../../src/instruments/program.ts';
import type { Plan, PlanInstrument, Reason, Witness } from '../../../src/keep/plan.ts';
import type { Range } from '../../../src/terms/range.ts';

/** Instruments of few zones whose layers overlap in every way, with a plan for them by lot. */

export interface RandomZone {
  readonly articulation: number;
  readonly keys: Range;
  readonly velocity: Range;
  readonly controllers: Layer['controllers'];
  readonly event: StartEvent;
  /** null: it was dropped. */
  readonly reasons: readonly Reason[] | null;
  readonly witnesses: readonly Witness[];
}

export const cueIds = ['1m1', '1m2', '2m1'] as const;

const cc = (number: number, lo: number, hi: number) => ({ number, range: [lo, hi] as const });

const witness: fc.Arbitrary<Witness> = fc
  .record({
    cue: fc.constantFrom(...cueIds),
    trackName: fc.constantFrom('Hn 1', 'Hn 2', null),
    bar: fc.integer({ min: 1, max: 3 }),
    beat: fc.constantFrom(1, 1.5, 2),
    key: fc.option(fc.integer({ min: 38, max: 54 })),
    velocity: fc.option(fc.constantFrom(1, 64, 127)),
  })
  .map((one) => ({ ...one, track: 0, tick: 0, seconds: 0, timecode: null }));

const zone: fc.Arbitrary<RandomZone> = fc.record({
  articulation: fc.integer({ min: 0, max: 1 }),
  keys: fc
    .tuple(fc.integer({ min: 40, max: 52 }), fc.integer({ min: 0, max: 6 }))
    .map(([lo, width]): Range => [lo, lo + width]),
  velocity: fc.constantFrom<Range>([1, 127], [1, 64], [65, 127], [40, 90]),
  controllers: fc.constantFrom<Layer['controllers']>(
    [],
    [],
    [cc(1, 0, 63)],
    [cc(1, 64, 127)],
    [cc(1, 32, 95)],
    [cc(1, 0, 63), cc(11, 0, 100)],
    [cc(11, 50, 127)],
  ),
  event: fc.constantFrom<StartEvent>('note-on', 'note-on', 'note-on', 'release', 'change'),
  reasons: fc.constantFrom<readonly Reason[] | null>(
    null,
    null,
    ['played'],
    ['order'],
    ['order', 'tail'],
    ['grain'],
    ['mutes'],
  ),
  witnesses: fc.array(witness, { maxLength: 3 }),
});

export const zones = fc.array(zone, { minLength: 1, maxLength: 9 });

/** An instrument of these zones. Numbers that the source knows them by are not their indices. */
export const instrumentOf = (list: readonly RandomZone[]): Instrument => ({
  id: 'horns',
  source: 'horns.csv',
  sha256: '0'.repeat(64),
  playedAs: 'single',
  zones: list.map((_, i) => ({
    ...{ id: 10 + i, samples: [i], group: 0, key: null, microphone: null },
  })),
  samples: [],
  articulations: [0, 1].map((articulation) => ({
    name: ['sustain', 'muted'][articulation]!,
    switch: null,
    layers: layersOf(
      list.flatMap((one, i) =>
        one.articulation === articulation
          ? [[i, { velocities: one.velocity, controllers: one.controllers }] as const]
          : [],
      ),
    ),
  })),
  program: {
    scope: 'copy',
    retriggers: false,
    signals: [{ kind: 'controller', number: 64, initial: 0 }],
    gates: [[]],
    holds: [standardHold],
    starts: list.map(({ articulation, event, keys, velocity }, i): Start => ({
      ...{ zone: i, articulation, event, keys, velocities: velocity },
      ...(event === 'change' ? { change: 0 } : {}),
      ...{ gate: 0, fades: [], doubt: 0, hold: 0, releaseSeconds: 0 },
    })),
    zones: list.length,
    articulations: 2,
  },
  presetZones: [],
  findings: [],
});

/** As much of a plan as a map needs. */
export const plannedOf = (list: readonly RandomZone[]): PlanInstrument =>
  ({
    id: 'horns',
    settle: {},
    presetZones: [],
    kept: list.flatMap(({ reasons, witnesses }, i) =>
      reasons === null ? [] : [{ zone: 10 + i, reasons, witnesses }],
    ),
  }) as unknown as PlanInstrument;

export const planOf = (list: readonly RandomZone[]): Plan =>
  ({
    cues: cueIds.map((id) => ({ id })),
    instruments: [plannedOf(list)],
  }) as unknown as Plan;
