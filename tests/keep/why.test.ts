import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Instrument } from '../../src/instruments/instrument.ts';
import type { Program, Start } from '../../src/instruments/program.ts';
import { makePlan } from '../../src/keep/make-plan.ts';
import type { PlanInstrument } from '../../src/keep/plan.ts';
import { withExactValues } from '../../src/keep/why/exact-values.ts';
import { selectZones } from '../../src/keep/why/select-zones.ts';
import { whyOf } from '../../src/keep/why/why-of.ts';
import type { Nearest, Why, WhyAsked } from '../../src/keep/why/why.ts';
import { asExported } from '../../src/playback/play-copy.ts';
import { noHeadroom, type Headroom } from '../../src/template/template.ts';
import { doubtNames } from '../../src/terms/doubt.ts';
import type { Settlements } from '../../src/terms/settlement.ts';
import type { OracleEvent } from '../oracle/soundfont-events.ts';
import { cc, instrumentOf, off, on, start, usageOf } from '../playback/hand-made.ts';
import { wholeTemplate } from '../playback/whole-cue.ts';
import { runs, share } from '../runs.ts';

/** Events of each cue by its id, in reel order. */
type Reel = Readonly<Record<string, readonly OracleEvent[]>>;

const planOf = (
  instrument: Instrument,
  reel: Reel,
  headroom: Headroom = noHeadroom,
  settle: Settlements = {},
): PlanInstrument => {
  const options = { ...asExported, controllerRoom: headroom.controller };
  const plan = makePlan({
    template: { ...wholeTemplate(instrument), headroom, settle },
    instruments: new Map([[instrument.id, instrument]]),
    files: Object.entries(reel).map(([cue, events]) =>
      usageOf(instrument, events, cue, undefined, options),
    ),
    reel: { without: [], newest: false, acceptPartial: [], allowUnmapped: false, split: null },
    isPartial: false,
    rare: null,
    headroomCurve: false,
    findings: [],
  });
  return plan.instruments[0]!;
};

const everything: WhyAsked = {
  zone: null,
  key: null,
  velocity: null,
  articulation: null,
  sample: null,
};

const whyWith = (
  instrument: Instrument,
  reel: Reel,
  settle: Settlements = {},
  asked: WhyAsked = everything,
): Why => {
  const own = planOf(instrument, reel, noHeadroom, settle);
  const exact = withExactValues(instrument);
  return whyOf({
    keep: { path: 'keep.json', sha256: 'c'.repeat(64) },
    own,
    instrument,
    files: Object.entries(reel).map(([cue, events]) => usageOf(exact, events, cue)),
    asked,
    zones: selectZones(own, instrument, asked, 4),
    middleC: 4,
    findings: [],
  });
};

const nearestTo = (why: Why, zone: number): readonly Nearest[] =>
  why.dropped.find((one) => one.zone === zone)!.nearest!;

const short = ({ by, distance, notes }: Nearest) => [by, distance, notes] as const;

describe('by hand', () => {
  // No outside source: the distances are counted on the keys.
  const keys = (lo: number, hi: number, over: Partial<Start> = {}) => ({ keys: [lo, hi], ...over });
  const instrument = (starts: readonly Partial<Start>[], over: Partial<Program> = {}) =>
    instrumentOf(
      { signals: [], gates: [[]], ...over, starts: starts.map((one, i) => start(i, one)) },
      starts.map(() => 1),
    );

  test('the lowest note above it, the first of two cues', () => {
    const low = instrument([keys(60, 72), keys(36, 40)] as Partial<Start>[]);
    const reel = {
      '1m1': [on(0, 72), off(240, 72)],
      '1m2': [on(0, 70), off(240, 70), on(1920, 60), off(2160, 60)],
      '1m3': [on(480, 60), off(700, 60)],
    };
    const near = nearestTo(whyWith(low, reel), 1);
    expect(near.map(short)).toEqual([['keys', 20, 2]]);
    // Four beats of 480 ticks are a bar.
    expect(near[0]!.place).toMatchObject({ cue: '1m2', tick: 1920, bar: 2, beat: 1, key: 60 });
  });

  test('a softer layer and a harder one', () => {
    const layered = instrument([
      { velocities: [51, 90] },
      { velocities: [1, 50] },
      { velocities: [91, 127] },
    ]);
    const why = whyWith(layered, {
      '1m1': [on(0, 60, 55), off(9, 60), on(10, 62, 88), off(20, 62)],
    });
    expect(nearestTo(why, 1).map(short)).toEqual([['velocity', 5, 1]]);
    expect(nearestTo(why, 2).map(short)).toEqual([['velocity', 3, 1]]);
    expect(nearestTo(why, 2)[0]!.place).toMatchObject({ key: 62, velocity: 88 });
  });

  test('two things at once are not near', () => {
    const corner = instrument([
      keys(60, 60),
      keys(61, 61, { velocities: [120, 127] }),
    ] as Partial<Start>[]);
    expect(nearestTo(whyWith(corner, { '1m1': [on(0, 60, 100)] }), 1)).toEqual([]);
  });

  test('a controller by its value, not by the nearest limit that some zone has', () => {
    const signals: Program['signals'] = [{ kind: 'controller', number: 1, initial: null }];
    const gate = (lo: number, hi: number) => [{ signal: 0, tests: [{ lo, hi, doubt: 0 }] }];
    const crossed = instrument([{ gate: 0 }, { gate: 1 }], {
      signals,
      gates: [gate(0, 63), gate(64, 127)],
    });
    const why = whyWith(crossed, { '1m1': [cc(0, 1, 52), on(10, 60), off(20, 60)] });
    // 64 - 52.
    expect(nearestTo(why, 1).map(short)).toEqual([['controller', 12, 1]]);
  });

  test('a fade by the loudest moment of the note', () => {
    const faded = instrument([{}, { fades: [{ signal: 0, lo: 100, hi: 127 }] }], {
      signals: [{ kind: 'controller', number: 1, initial: null }],
    });
    const reel = { '1m1': [cc(0, 1, 10), on(10, 60), cc(50, 1, 93), cc(60, 1, 20), off(90, 60)] };
    expect(nearestTo(whyWith(faded, reel), 1).map(short)).toEqual([['controller', 7, 1]]);
  });

  test('the articulation that is never chosen, and the doubt that is settled', () => {
    const gate = (key: number) => [{ signal: 0, tests: [{ lo: key, hi: key, doubt: 0 }] }];
    const switched = {
      ...instrumentOf(
        {
          signals: [{ kind: 'switch', keys: [[24, 25]], initial: null }],
          gates: [gate(24), gate(25)],
          starts: [
            start(0, { keys: [60, 72], gate: 0 }),
            start(1, { keys: [60, 72], gate: 1, articulation: 1 }),
          ],
        },
        [1, 1],
        {
          articulations: [
            { name: 'long', switch: '24', layers: [] },
            { name: 'short', switch: '25', layers: [] },
          ],
        },
      ),
    };
    const never = whyWith(switched, { '1m1': [on(0, 24), off(9, 24), on(480, 60), off(500, 60)] });
    expect(nearestTo(never, 1).map(short)).toEqual([['articulation', 0, 1]]);
    // On the tick of the note, behind it in the file.
    const order = { '1m1': [on(0, 24), off(9, 24), on(480, 60), on(480, 25), off(500, 60)] };
    const settled = whyWith(switched, order, { order: 'plain' });
    expect(nearestTo(settled, 1)[0]).toMatchObject({
      ...{ by: 'settled', distance: 0, doubts: ['order'], notes: 1 },
      place: { cue: '1m1', tick: 480, key: 60 },
    });
    expect(nearestTo(settled, 1)).toHaveLength(1);
  });

  test('without an instrument the keep file speaks, and nothing is near', () => {
    const one = instrument([keys(60, 72), keys(36, 40)] as Partial<Start>[]);
    const own = planOf(one, { '1m1': [on(0, 60)] });
    const why = whyOf({
      ...{ keep: { path: 'k', sha256: 'c'.repeat(64) }, own, instrument: null, files: null },
      ...{ asked: everything, zones: new Set([0, 1]), middleC: 4, findings: [] },
    });
    expect(why.kept[0]).toMatchObject({ zone: 0, keys: null, notes: 1, reasons: ['played'] });
    expect(why.dropped[0]).toMatchObject({ zone: 1, keys: null, nearest: null });
  });
});

/** Small tables with layers, switches, gates and fades on controllers, releases. */
const range = (lo: number, hi: number) =>
  fc
    .tuple(fc.integer({ min: lo, max: hi }), fc.integer({ min: lo, max: hi }))
    .map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const);

const someTests = (signal: number, lo: number, hi: number) =>
  range(lo, hi).map(([from, to]) => ({ signal, tests: [{ lo: from, hi: to, doubt: 0 }] }));

const randomInstrument = fc
  .record({
    gates: fc.array(
      fc.oneof(
        fc.constant([]),
        someTests(0, 24, 26).map((one) => [one]),
        someTests(1, 0, 127).map((one) => [one]),
        fc.tuple(someTests(0, 24, 26), someTests(1, 0, 127)).map((two) => [...two]),
        fc.tuple(someTests(1, 0, 127), someTests(2, 0, 127)).map((two) => [...two]),
      ),
      { minLength: 1, maxLength: 4 },
    ),
    zones: fc.array(
      fc.record({
        keys: fc
          .tuple(fc.integer({ min: 44, max: 88 }), fc.nat({ max: 20 }))
          .map(([lo, more]) => [lo, lo + more] as const),
        velocities: range(1, 127),
        gate: fc.nat({ max: 3 }),
        fade: fc.option(range(0, 127), { freq: 2 }),
        event: fc.constantFrom('note-on' as const, 'note-on' as const, 'release' as const),
      }),
      { minLength: 2, maxLength: 8 },
    ),
  })
  .map(({ gates, zones }) =>
    instrumentOf(
      {
        signals: [
          { kind: 'switch', keys: [[24, 26]], initial: null },
          { kind: 'controller', number: 1, initial: null },
          { kind: 'controller', number: 2, initial: 40 },
        ],
        gates,
        starts: zones.map(({ keys, velocities, gate, fade, event }, i) =>
          start(i, {
            ...{ keys, velocities, event, gate: gate % gates.length, releaseSeconds: 0.1 },
            fades: fade === null ? [] : [{ signal: 2, lo: fade[0], hi: fade[1] }],
          }),
        ),
      },
      zones.map(() => 1),
    ),
  );

const randomEvents = fc
  .array(
    fc.oneof(
      {
        weight: 4,
        arbitrary: fc.record({
          kind: fc.constant('note' as const),
          key: fc.integer({ min: 50, max: 80 }),
          value: fc.integer({ min: 1, max: 127 }),
        }),
      },
      {
        weight: 1,
        arbitrary: fc.record({
          kind: fc.constant('switch' as const),
          key: fc.integer({ min: 24, max: 26 }),
          value: fc.constant(64),
        }),
      },
      {
        weight: 2,
        arbitrary: fc.record({
          kind: fc.constant('controller' as const),
          key: fc.constantFrom(1, 2),
          value: fc.integer({ min: 0, max: 127 }),
        }),
      },
    ),
    { minLength: 1, maxLength: 10 },
  )
  .map((list) =>
    list
      .flatMap(({ kind, key, value }, i): readonly OracleEvent[] => {
        // Some fall on one tick.
        const tick = Math.floor(i / 2) * 240;
        if (kind === 'controller') return [cc(tick, key, value)];
        return [on(tick, key, value), off(tick + 300, key)];
      })
      .sort((a, b) => a.tick - b.tick),
  );

const randomSettle = fc
  .subarray(doubtNames.filter((name) => name !== 'damage'))
  .map((names): Settlements => Object.fromEntries(names.map((name) => [name, 'plain'])));

/** The least room with which a plan keeps each zone that none keeps without: by trying every room. */
const leastByTrying = (
  instrument: Instrument,
  reel: Reel,
  settle: Settlements,
  dimension: keyof Headroom,
): ReadonlyMap<number, number> => {
  const least = new Map<number, number>();
  let before = new Set(planOf(instrument, reel, noHeadroom, settle).kept.map(({ zone }) => zone));
  for (let room = 1; room <= 127 && before.size < instrument.zones.length; room++) {
    const { kept } = planOf(instrument, reel, { ...noHeadroom, [dimension]: room }, settle);
    const now = new Set(kept.map(({ zone }) => zone));
    for (const zone of now) if (!before.has(zone)) least.set(zone, room);
    before = now;
  }
  return least;
};

describe('against plans with every headroom there is', () => {
  test.each(['keys', 'velocity', 'controller'] as const)('%s', (dimension) => {
    let found = 0;
    fc.assert(
      fc.property(randomInstrument, randomEvents, randomEvents, randomSettle, (...given) => {
        const [instrument, first, second, settle] = given;
        const reel = { '1m1': first, '1m2': second };
        const why = whyWith(instrument, reel, settle);
        const distances = why.dropped.flatMap(({ zone, nearest }) =>
          nearest!.flatMap(({ by, distance }) =>
            by === dimension ? [[zone, distance] as const] : [],
          ),
        );
        found += distances.length;
        expect(new Map(distances)).toEqual(leastByTrying(instrument, reel, settle, dimension));
      }),
      { numRuns: runs(25), seed: 20_26 },
    );
    expect(found).toBeGreaterThan(share(5));
  });
});

describe('against all notes of a reel, where nothing but keys and velocities matters', () => {
  test('how far, how many and which first', () => {
    const zones = fc.array(fc.record({ keys: range(48, 84), velocities: range(1, 127) }), {
      minLength: 1,
      maxLength: 6,
    });
    const notes = fc.array(
      fc.record({
        cue: fc.constantFrom('1m1', '1m2'),
        key: fc.integer({ min: 50, max: 80 }),
        velocity: fc.integer({ min: 1, max: 127 }),
      }),
      { minLength: 2, maxLength: 12 },
    );
    fc.assert(
      fc.property(zones, notes, (own, played) => {
        const instrument = instrumentOf(
          { signals: [], gates: [[]], starts: own.map((one, i) => start(i, one)) },
          own.map(() => 1),
        );
        const placed = played
          .map((note, i) => ({ ...note, tick: i * 480 }))
          .sort((a, b) => (a.cue < b.cue ? -1 : a.cue > b.cue ? 1 : a.tick - b.tick));
        const eventsOf = (cue: string) =>
          placed
            .filter((note) => note.cue === cue)
            .flatMap(({ tick, key, velocity }) => [on(tick, key, velocity), off(tick + 240, key)]);
        const why = whyWith(instrument, { '1m1': eventsOf('1m1'), '1m2': eventsOf('1m2') });
        const away = ([lo, hi]: readonly [number, number], value: number): number =>
          value < lo ? lo - value : value > hi ? value - hi : 0;
        for (const { zone, nearest } of why.dropped) {
          const { keys, velocities } = own[zone]!;
          const expected = (['keys', 'velocity'] as const).flatMap((by) => {
            const near = placed
              .filter((note) =>
                by === 'keys' ? away(velocities, note.velocity) === 0 : away(keys, note.key) === 0,
              )
              .map((note) => ({
                ...note,
                distance: by === 'keys' ? away(keys, note.key) : away(velocities, note.velocity),
              }));
            const distance = Math.min(...near.map((note) => note.distance));
            const all = near.filter((note) => note.distance === distance);
            const [first] = all;
            return first === undefined
              ? []
              : [{ by, distance, notes: all.length, cue: first.cue, tick: first.tick }];
          });
          const told = nearest!.map(({ by, distance, notes: count, place }) => ({
            ...{ by, distance, notes: count, cue: place.cue, tick: place.tick },
          }));
          const byName = (a: { by: string }, b: { by: string }) => (a.by < b.by ? -1 : 1);
          expect([...told].sort(byName)).toEqual([...expected].sort(byName));
          const distances = told.map(({ distance }) => distance);
          expect(distances).toEqual([...distances].sort((a, b) => a - b));
        }
      }),
      { numRuns: runs(100), seed: 20_27 },
    );
  });
});
