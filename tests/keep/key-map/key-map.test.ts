import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Instrument } from '../../../src/instruments/instrument.ts';
import type { Start } from '../../../src/instruments/program.ts';
import type { KeyMapCell, KeyMapRow } from '../../../src/keep/key-map/key-map.ts';
import { makeKeyMap } from '../../../src/keep/key-map/make-key-map.ts';
import type { PlanInstrument } from '../../../src/keep/plan.ts';
import { instrumentOf, plannedOf, zones, type RandomZone } from './random-instrument.ts';

const keyNumbers = Array.from({ length: 128 }, (_, key) => key);

const rowEvent = ({ event }: RandomZone): KeyMapRow['event'] =>
  event === 'note-on' ? 'note' : event === 'change' ? 'change' : 'release';

/** What is told of a key, from the list of zones alone. */
const told = (list: readonly RandomZone[], key: number) => {
  const here = list.filter(
    ({ event, keys: [lo, hi] }) => event !== 'change' && lo <= key && key <= hi,
  );
  if (here.length === 0) return null;
  const kept = here.filter(({ reasons }) => reasons !== null);
  const reasons = new Set(kept.flatMap((one) => one.reasons!));
  const state = reasons.has('played')
    ? 'kept'
    : reasons.has('order') || reasons.has('tail')
      ? 'doubtful'
      : kept.length > 0
        ? 'spare'
        : 'dropped';
  return { zones: here.length, kept: kept.length, state, reasons: [...reasons].sort() };
};

const cellAt = (row: KeyMapRow, key: number): KeyMapCell | undefined =>
  row.cells.find(({ keys: [lo, hi] }) => lo <= key && key <= hi);

test('each key of each row tells what its zones tell, one by one', () => {
  fc.assert(
    fc.property(zones, (list) => {
      const map = makeKeyMap(instrumentOf(list), plannedOf(list));
      let rows = 0;
      for (const { articulation, rows: own } of map.articulations) {
        for (const row of own) {
          rows++;
          const members = list.filter(
            (one) =>
              one.articulation === articulation &&
              rowEvent(one) === row.event &&
              JSON.stringify([one.velocity, one.controllers]) ===
                JSON.stringify([row.velocity, row.controllers]),
          );
          expect(row.zones).toBe(members.length);
          expect(row.zones).toBeGreaterThan(0);
          expect(row.zonesKept).toBe(members.filter(({ reasons }) => reasons !== null).length);
          for (const key of keyNumbers) {
            const cell = cellAt(row, key);
            const expected = told(members, key);
            if (expected === null) expect(cell).toBeUndefined();
            else {
              const { zones: count, kept, state, reasons } = cell!;
              expect({ zones: count, kept, state, reasons: [...reasons].sort() }).toEqual(expected);
            }
          }
        }
      }
      const there = new Set(
        list.map((one) =>
          JSON.stringify([one.articulation, rowEvent(one), one.velocity, one.controllers]),
        ),
      );
      expect(rows).toBe(there.size);
    }),
  );
});

test('cells ascend, and two beside each other differ', () => {
  fc.assert(
    fc.property(zones, (list) => {
      for (const { rows } of makeKeyMap(instrumentOf(list), plannedOf(list)).articulations) {
        for (const { cells } of rows) {
          cells.slice(1).forEach(({ keys, ...cell }, i) => {
            const { keys: before, ...other } = cells[i]!;
            expect(keys[0]).toBeGreaterThan(before[1]);
            if (keys[0] === before[1] + 1) expect(cell).not.toEqual(other);
          });
        }
      }
    }),
  );
});

test('notes come first, then the loudest', () => {
  fc.assert(
    fc.property(zones, (list) => {
      for (const { rows } of makeKeyMap(instrumentOf(list), null).articulations) {
        const order = rows.map(
          ({ event, velocity: [lo, hi] }) =>
            ['note', 'release', 'change'].indexOf(event) * 1e6 - hi * 1000 - lo,
        );
        expect(order).toEqual([...order].sort((a, b) => a - b));
      }
    }),
  );
});

test('without a plan nothing is said of one, and the keys are the same', () => {
  fc.assert(
    fc.property(zones, (list) => {
      const instrument = instrumentOf(list);
      const [map, planned] = [
        makeKeyMap(instrument, null),
        makeKeyMap(instrument, plannedOf(list)),
      ];
      expect(map.keys).toEqual(planned.keys);
      const keyed = list.filter(({ event }) => event !== 'change').map(({ keys }) => keys);
      expect(map.keys).toEqual(
        keyed.length === 0
          ? null
          : [Math.min(...keyed.map(([lo]) => lo)), Math.max(...keyed.map(([, hi]) => hi))],
      );
      for (const { rows } of map.articulations) {
        for (const { zonesKept, cells } of rows) {
          expect(zonesKept).toBeNull();
          for (const { kept, state, reasons } of cells) {
            expect([kept, state, reasons]).toEqual([null, null, []]);
          }
        }
      }
    }),
  );
});

const base: RandomZone = {
  articulation: 0,
  keys: [40, 43],
  velocity: [1, 127],
  controllers: [],
  event: 'note-on',
  reasons: ['played'],
  witnesses: [],
};

/** An instrument of one zone with these starts. */
const started = (starts: readonly Partial<Start>[], more: Partial<Instrument> = {}): Instrument => {
  const one = instrumentOf([base]);
  const [start] = one.program.starts;
  return {
    ...one,
    ...more,
    program: {
      ...one.program,
      signals: [{ kind: 'poly-pressure', of: 'own-key' }, ...one.program.signals],
      starts: starts.map((change) => ({ ...start!, ...change })),
    },
  };
};

const rowsOf = (instrument: Instrument, own: PlanInstrument | null = null): readonly KeyMapRow[] =>
  makeKeyMap(instrument, own).articulations[0]!.rows;

describe('a zone', () => {
  test('that notes start too stands under notes, with the keys of notes', () => {
    const rows = rowsOf(started([{ keys: [40, 41] }, { event: 'release', keys: [40, 50] }]));
    expect(rows.map(({ event, cells }) => [event, cells.map(({ keys }) => keys)])).toEqual([
      ['note', [[40, 41]]],
    ]);
  });

  test('that two starts lead to counts once at a key', () => {
    const [row] = rowsOf(started([{ keys: [40, 44] }, { keys: [42, 48] }]));
    expect(row!.cells.map(({ keys, zones: count }) => [keys, count])).toEqual([[[40, 48], 1]]);
  });

  test.each(['note-off', 'restrike', 'cut'] as const)('of %s stands under releases', (event) => {
    expect(rowsOf(started([{ event }])).map((row) => row.event)).toEqual(['release']);
  });

  test('that poly pressure starts has the keys that it is about', () => {
    const [row] = rowsOf(
      started([{ event: 'change', change: 0, keys: [100, 127], velocities: [60, 62] }]),
    );
    expect([row!.event, row!.cells.map(({ keys }) => keys)]).toEqual(['change', [[60, 62]]]);
  });

  test('that a controller starts has no key, and counts', () => {
    const map = makeKeyMap(started([{ event: 'change', change: 1, keys: [100, 127] }]), null);
    expect(map.keys).toBeNull();
    expect(map.articulations[0]!.rows.map(({ zones: count, cells }) => [count, cells])).toEqual([
      [1, []],
    ]);
  });

  test('that watches beyond the keys that there are is no wider', () => {
    expect(makeKeyMap(started([{ keys: [-1, 200] }]), null).keys).toEqual([0, 127]);
  });

  test('of a bank stays where its preset zone stays', () => {
    const bank = started([{}], { presetZones: [7] });
    const own = plannedOf([base]);
    expect(rowsOf(bank, { ...own, presetZones: [7] })[0]!.zonesKept).toBe(1);
    expect(rowsOf(bank, { ...own, presetZones: [8] })[0]!.zonesKept).toBe(0);
    expect(rowsOf(bank, own)[0]!.cells[0]!.state).toBe('dropped');
  });

  test('of a bank that two layers lead to has in each the keys of its own', () => {
    const bank = started([
      { keys: [40, 41], velocities: [1, 64] },
      { keys: [50, 51], velocities: [65, 127] },
    ]);
    const layers = [
      { velocity: [1, 64] as const, controllers: [], zones: [0] },
      { velocity: [65, 127] as const, controllers: [], zones: [0] },
    ];
    const rows = rowsOf({ ...bank, articulations: [{ ...bank.articulations[0]!, layers }] });
    expect(rows.map(({ velocity, cells }) => [velocity, cells.map(({ keys }) => keys)])).toEqual([
      [[65, 127], [[50, 51]]],
      [[1, 64], [[40, 41]]],
    ]);
  });

  test('of no layer, because only a doubt starts it, is there all the same', () => {
    const bank = started([{ velocities: [10, 20], doubt: 1 }]);
    const rows = rowsOf({
      ...bank,
      articulations: [{ ...bank.articulations[0]!, layers: [] }],
    });
    expect(rows.map(({ velocity, zones: count }) => [velocity, count])).toEqual([[[10, 20], 1]]);
  });
});

test('many zones take as much longer as there are more of them', () => {
  const processorTime = (count: number): number => {
    const list = Array.from({ length: count }, (_, i): RandomZone => ({
      ...base,
      keys: [i % 100, (i % 100) + 20],
      velocity: [1 + (i % 60), 127],
      reasons: i % 3 === 0 ? null : ['played'],
    }));
    const [instrument, own] = [instrumentOf(list), plannedOf(list)];
    const before = process.cpuUsage();
    makeKeyMap(instrument, own);
    const { user, system } = process.cpuUsage(before);
    return user + system;
  };
  const least = (count: number): number =>
    Math.min(...Array.from({ length: 3 }, () => processorTime(count)));
  // With the square it would be 400 times as much.
  expect(least(40_000) / least(2_000)).toBeLessThan(100);
});
