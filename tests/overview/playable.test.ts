import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Instrument } from '../../src/instruments/instrument.ts';
import { openStarts } from '../../src/keep/key-map/open-starts.ts';
import { zonedKeyMap } from '../../src/keep/key-map/make-key-map.ts';
import type { PlanInstrument } from '../../src/keep/plan.ts';
import type { Playable, PlayableStretch } from '../../src/overview/overview-playable.ts';
import { playableOf } from '../../src/overview/playable.ts';
import { doubtSet } from '../../src/terms/doubt.ts';
import type { Range } from '../../src/terms/range.ts';
import {
  instrumentOf,
  plannedOf,
  zones,
  type RandomZone,
} from '../keep/key-map/random-instrument.ts';

const keyNumbers = Array.from({ length: 128 }, (_, key) => key);

const playable = (
  instrument: Instrument,
  own: PlanInstrument,
  articulation = 0,
  excluded = 0,
): Playable | undefined => {
  const rows = zonedKeyMap(instrument, own).articulations.find(
    (one) => one.articulation === articulation,
  )?.rows;
  const { program } = instrument;
  return rows && playableOf(rows, { program, isOpen: openStarts(instrument, own), excluded });
};

const holds = ([lo, hi]: Range, value: number): boolean => lo <= value && value <= hi;

const numbersIn = (ranges: readonly Range[]): readonly number[] =>
  keyNumbers.filter((value) => ranges.some((range) => holds(range, value)));

const rangeOn = (by: 'velocity' | number, zone: RandomZone): Range =>
  by === 'velocity'
    ? zone.velocity
    : (zone.controllers.find(({ number }) => number === by)?.range ?? [0, 127]);

/** A zone that only mutes is there, and silent: what sounds from it was dropped. */
const sounds = ({ reasons }: RandomZone): boolean => reasons !== null && reasons[0] !== 'mutes';

/** Whether there are values of velocity and controllers with which nothing that is gone is asked for. */
const isAnyFree = (here: readonly RandomZone[]): boolean => {
  const limits = (by: 'velocity' | number): readonly number[] =>
    here
      .flatMap((one) => [rangeOn(by, one)[0], rangeOn(by, one)[1] + 1])
      .filter((value) => value < 128);
  return limits('velocity').some((velocity) =>
    limits(1).some((wheel) =>
      limits(11).some((pedal) =>
        isFree(
          here,
          new Map<'velocity' | number, number>([
            ['velocity', velocity],
            [1, wheel],
            [11, pedal],
          ]),
        ),
      ),
    ),
  );
};

/** What a key lets through, zone by zone and value by value. */
const naive = (list: readonly RandomZone[], key: number) => {
  const here = list.filter(({ event, keys }) => event === 'note-on' && holds(keys, key));
  if (!isAnyFree(here)) return null;
  const choosing = (['velocity', 1, 11] as const).filter((by) =>
    here.some((one) => rangeOn(by, one).join() !== rangeOn(by, here[0]!).join()),
  );
  const dynamics = choosing.map((by) => ({
    by,
    safe: keyNumbers.filter((value) => {
      const asked = here.filter((one) => holds(rangeOn(by, one), value));
      return asked.length > 0 && asked.every(sounds);
    }),
    all: [
      Math.min(...here.map((one) => rangeOn(by, one)[0])),
      Math.max(...here.map((one) => rangeOn(by, one)[1])),
    ],
  }));
  if (dynamics.length > 0 || here.every(sounds)) return dynamics;
  return [{ by: 'velocity', safe: [], all: here[0]!.velocity }];
};

/** Whether values of all controls ask for something, and for nothing that is gone. */
const isFree = (here: readonly RandomZone[], values: ReadonlyMap<'velocity' | number, number>) => {
  const asked = here.filter((one) =>
    [...values].every(([by, value]) => holds(rangeOn(by, one), value)),
  );
  return asked.length > 0 && asked.every(sounds);
};

/** Every value of a box is free, and no value beside it would be. */
const expectWidestBox = (
  list: readonly RandomZone[],
  key: number,
  together: PlayableStretch['together'],
): void => {
  const here = list.filter(({ event, keys }) => event === 'note-on' && holds(keys, key));
  const all = (range: Range): readonly number[] => numbersIn([range]);
  const isBox = (box: readonly Range[], i = 0, values = new Map<'velocity' | number, number>()) => {
    const one = together[i];
    if (one === undefined) return isFree(here, values);
    return all(box[i]!).every((value): boolean =>
      isBox(box, i + 1, new Map(values).set(one.by, value)),
    );
  };
  const box = together.map(({ range }) => range);
  expect(isBox(box)).toBe(true);
  box.forEach(([lo, hi], i) => {
    const lowest = together[i]!.by === 'velocity' ? 1 : 0;
    if (lo > lowest) expect(isBox(box.with(i, [lo - 1, lo - 1]))).toBe(false);
    if (hi < 127) expect(isBox(box.with(i, [hi + 1, hi + 1]))).toBe(false);
  });
};

test('what can be played is what each key lets through, value by value', () => {
  const seen = new Set<string>();
  fc.assert(
    fc.property(zones, (list) => {
      const [instrument, own] = [instrumentOf(list), plannedOf(list)];
      for (const articulation of [0, 1]) {
        const zonesOf = list.filter((one) => one.articulation === articulation);
        const found = playable(instrument, own, articulation);
        if (zonesOf.length === 0) {
          expect(found).toBeUndefined();
          continue;
        }
        const { state, all, stretches } = found!;
        // Trying every value takes long: a few keys of each.
        const boxed = new Set<number>();
        const notes = zonesOf.filter(({ event }) => event === 'note-on');
        expect(numbersIn(all)).toEqual(
          keyNumbers.filter((key) => notes.some(({ keys }) => holds(keys, key))),
        );
        for (const key of keyNumbers) {
          const at = stretches.filter(({ keys }) => keys.some((range) => holds(range, key)));
          expect(at.length).toBeLessThan(2);
          const dynamics =
            at[0]?.dynamics.map((one) => ({ ...one, safe: numbersIn(one.safe) })) ?? null;
          expect(dynamics).toEqual(naive(zonesOf, key));
          dynamics?.forEach(({ safe }) => safe.length > 0 && seen.add('some'));
          const together = at[0]?.together ?? [];
          const isLimited = dynamics?.some(({ safe }) => safe.length > 0) !== false;
          if (isLimited || together.length > 0) expect(at[0]?.dependsOn ?? []).toEqual([]);
          const limits = dynamics?.filter(({ safe }) => safe.length > 0) ?? [];
          const lost = zonesOf.some(
            (one) =>
              one.event === 'release' &&
              holds(one.keys, key) &&
              !sounds(one) &&
              (together.length > 0
                ? together.every(({ by, range }) =>
                    numbersIn([range]).some((value) => holds(rangeOn(by, one), value)),
                  )
                : limits.length === 0 ||
                  limits.some(({ by, safe }) =>
                    safe.some((value) => holds(rangeOn(by, one), value)),
                  )),
          );
          if (at[0] !== undefined) expect(at[0].releasesGone).toBe(lost);
          if (lost) seen.add('without ends');
          if (isLimited || dynamics.length < 2) expect(together).toEqual([]);
          else if (together.length > 0 && !boxed.has(key % 8)) {
            boxed.add(key % 8);
            expectWidestBox(zonesOf, key, together);
            seen.add('together');
          }
        }
        const judged = notes.length > 0 ? notes : zonesOf;
        const kept = judged.filter((one) =>
          notes.length > 0 ? sounds(one) : one.reasons !== null,
        ).length;
        const isWhole =
          kept === judged.length && !stretches.some(({ releasesGone }) => releasesGone);
        const isGone = notes.length > 0 ? stretches.length === 0 : kept === 0;
        expect(state).toBe(isGone ? 'gone' : isWhole ? 'whole' : 'part');
        seen.add(state);
      }
    }),
    { seed: 9, numRuns: 300 },
  );
  // What was tried had all of it.
  expect([...seen].sort()).toEqual(['gone', 'part', 'some', 'together', 'whole', 'without ends']);
});

test('stretches have no more room in common than their neighbours, and go up', () => {
  fc.assert(
    fc.property(zones, (list) => {
      const { stretches = [] } = playable(instrumentOf(list), plannedOf(list)) ?? {};
      const rooms = stretches.map((stretch) => JSON.stringify({ ...stretch, keys: null }));
      expect(new Set(rooms).size).toBe(rooms.length);
      const first = stretches.map(({ keys }) => keys[0]![0]);
      expect(first).toEqual([...first].sort((a, b) => a - b));
    }),
  );
});

const zone = (change: Partial<RandomZone>): RandomZone => ({
  ...{ articulation: 0, keys: [40, 43], velocity: [1, 127], controllers: [] },
  ...{ event: 'note-on', reasons: ['played'], witnesses: [] },
  ...change,
});

describe('by hand', () => {
  const of = (...list: readonly Partial<RandomZone>[]): Playable =>
    playable(instrumentOf(list.map(zone)), plannedOf(list.map(zone)))!;

  test('the loud layer was dropped on the upper half alone', () => {
    expect(
      of(
        { keys: [40, 51], velocity: [1, 90] },
        { keys: [40, 45], velocity: [91, 127] },
        { keys: [46, 51], velocity: [91, 127], reasons: null },
      ),
    ).toEqual({
      state: 'part',
      all: [[40, 51]],
      stretches: [
        {
          keys: [[40, 45]],
          dynamics: [{ by: 'velocity', safe: [[1, 127]], all: [1, 127] }],
          together: [],
          dependsOn: [],
          releasesGone: false,
        },
        {
          keys: [[46, 51]],
          dynamics: [{ by: 'velocity', safe: [[1, 90]], all: [1, 127] }],
          together: [],
          dependsOn: [],
          releasesGone: false,
        },
      ],
    });
  });

  test('layers that fade over each other: where the lower alone sounds, nothing is missing', () => {
    expect(
      of(
        { controllers: [{ number: 1, range: [0, 74] }] },
        { controllers: [{ number: 1, range: [61, 127] }], reasons: null },
      ).stretches[0]!.dynamics,
    ).toEqual([{ by: 1, safe: [[0, 60]], all: [0, 127] }]);
  });

  test('two controls, one corner dropped: no value of either is safe whatever the other does', () => {
    const corner = (soft: boolean, low: boolean): Partial<RandomZone> => ({
      velocity: soft ? [1, 63] : [64, 127],
      controllers: [{ number: 1, range: low ? [0, 63] : [64, 127] }],
    });
    expect(
      of(
        corner(true, true),
        { ...corner(true, false), reasons: null },
        { ...corner(false, true), reasons: null },
        corner(false, false),
      ).stretches[0],
    ).toEqual({
      keys: [[40, 43]],
      dynamics: [
        { by: 'velocity', safe: [], all: [1, 127] },
        { by: 1, safe: [], all: [0, 127] },
      ],
      // 64 values of each above, 63 velocities by 64 values below.
      together: [
        { by: 'velocity', range: [64, 127] },
        { by: 1, range: [64, 127] },
      ],
      dependsOn: [],
      releasesGone: false,
    });
  });

  test('one of two takes was dropped, and nothing chooses between them: nothing can be written', () => {
    expect(of({}, { reasons: null })).toEqual({ state: 'gone', all: [[40, 43]], stretches: [] });
  });

  test('a release that was dropped is told where a note within the limits may end in it', () => {
    const gone = { event: 'release', reasons: null } as const;
    const whole = of({}, gone);
    expect([whole.state, whole.stretches[0]!.releasesGone]).toEqual(['part', true]);
    const loud = { velocity: [91, 127], reasons: null } as const;
    const [soft, all] = [{ velocity: [1, 90] } as const, { velocity: [1, 127] } as const];
    expect(of(soft, loud, { ...loud, ...gone }).stretches[0]!.releasesGone).toBe(false);
    expect(of(soft, loud, { ...gone, ...all }).stretches[0]!.releasesGone).toBe(true);
  });
});

describe('a start', () => {
  const list = [zone({ velocity: [1, 63] }), zone({ velocity: [64, 127], reasons: null })];
  const [instrument, own] = [instrumentOf(list), plannedOf(list)];
  const withStarts = (change: object): Instrument => ({
    ...instrument,
    program: {
      ...instrument.program,
      starts: instrument.program.starts.map((start, i) =>
        i === 1 ? { ...start, ...change } : start,
      ),
    },
  });

  test('that only a settled doubt asks for is not missed', () => {
    const doubtful = withStarts({ doubt: doubtSet('stretch') });
    expect(playable(doubtful, own)!.state).toBe('part');
    expect(playable(doubtful, own, 0, doubtSet('order'))!.state).toBe('part');
    expect(playable(doubtful, own, 0, doubtSet('stretch', 'order'))!.state).toBe('whole');
  });

  test('without a sound may be of a zone that only mutes', () => {
    const muting = { ...own, kept: plannedOf([list[0]!, zone({ reasons: ['mutes'] })]).kept };
    expect(playable(instrument, muting)!.state).toBe('part');
    expect(playable(withStarts({ silent: true }), muting)!.state).toBe('whole');
  });

  test('through a preset zone that was dropped is missed', () => {
    const bank: Instrument = { ...instrument, presetZones: [3, 4] };
    const kept = plannedOf(list.map((one) => ({ ...one, reasons: ['played' as const] }))).kept;
    expect(playable(bank, { ...own, kept, presetZones: [3, 4] })!.state).toBe('whole');
    expect(playable(bank, { ...own, kept, presetZones: [3] })!.state).toBe('part');
  });
});

describe('beside the zones of the articulation', () => {
  const upTo90 = [{ by: 'velocity', safe: [[1, 90]], all: [1, 127] }];
  const list = [zone({}), zone({ articulation: 1, velocity: [91, 127], reasons: null })];
  const [instrument, own] = [instrumentOf(list), plannedOf(list)];
  const rowsOf = (articulation: number, planned = own, of = instrument) =>
    zonedKeyMap(of, planned).articulations.find((one) => one.articulation === articulation)!.rows;
  const context = { program: instrument.program, isOpen: () => true, excluded: 0 };

  test('what sounds with every articulation is asked for too', () => {
    expect(playableOf(rowsOf(0), context).state).toBe('whole');
    const beside = playableOf(rowsOf(0), { ...context, everywhere: rowsOf(1) });
    expect([beside.state, beside.stretches[0]!.dynamics]).toEqual(['part', upTo90]);
  });

  const layers = [zone({ velocity: [1, 90] }), zone({ velocity: [91, 127] })];
  const layered = instrumentOf(layers);
  const copy = (...kept: readonly number[]) => {
    const mask = Uint8Array.from(kept);
    return { kept: mask, loaded: mask };
  };

  test('a copy has room for what it has itself', () => {
    const rows = rowsOf(0, plannedOf(layers), layered);
    const room = (own: ReturnType<typeof copy>) => {
      const found = playableOf(rows, { ...context, program: layered.program, copy: own });
      return [found.state, found.stretches[0]?.dynamics];
    };
    expect(room(copy(1, 0))).toEqual(['part', upTo90]);
    expect(room(copy(1, 1))).toEqual(['whole', [{ ...upTo90[0], safe: [[1, 127]] }]]);
    expect(room(copy(0, 0))).toEqual(['gone', undefined]);
  });

  test('what starts without a sound asks for its zone, whatever its layer', () => {
    const dropped = [zone({ velocity: [1, 90] }), zone({ velocity: [91, 127], reasons: null })];
    const rows = rowsOf(0, plannedOf(dropped), layered);
    const loud = layered.program.starts[1]!;
    const silent = { ...loud, velocities: [60, 127] as const, silent: true as const };
    const program = { ...layered.program, starts: [...layered.program.starts, silent] };
    const withSilent = rows.map((row) => ({
      ...row,
      members: row.members.map((one) =>
        one.starts.includes(1) ? { ...one, starts: [1, layered.program.starts.length] } : one,
      ),
    }));
    const { stretches } = playableOf(withSilent, { ...context, program });
    expect(stretches[0]!.dynamics).toEqual([{ ...upTo90[0], safe: [[1, 59]] }]);
  });
});
