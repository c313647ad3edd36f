/**
 * The worked example of a reel, once more by the naive models. The sizes of the template are typed
 * in here a second time; the tables and the cues are read as they stand.
 */
import { describe, expect, test } from 'vitest';
import {
  changes,
  cues,
  grouping,
  instruments,
  keepsetYaml,
  machines,
  needs,
  otherMemories,
  placement,
  tables,
  total,
  withFrontMemory,
  type ExampleChange,
  type ExampleGrouping,
  type InstrumentId,
  type MachineId,
  type Run,
} from '../../reference/memory-worked-example.ts';
import { closedUp, type Grain } from './grain.ts';
import { figure, machine, type MemoryInstrument, type MemoryPlayer } from './memory.ts';
import { bestGrouping, groupings, missing, type Grouping } from './reel-groups.ts';
import {
  changeSeconds,
  figureTogether,
  instrumentChange,
  instrumentFigure,
  machineChange,
  machineFigure,
  machineSeconds,
  peak,
  reelChange,
  totalBytes,
  type Reel,
  type ReelInstrument,
  type ReelNeed,
} from './reel-memory.ts';
import { placements } from './reel-placement.ts';
import { reachedByCopy, type TableRow } from './tables.ts';

const ids = Object.keys(instruments) as InstrumentId[];
const machineIds = Object.keys(machines) as MachineId[];
const runs = Object.keys(machines.front.runs) as Run[];

/** Its cues as indices. */
const cuesOf = (run: Run) => [...run].map((digit) => Number(digit) - 1);

/** The cells of a table, by the headings; this example has no quotes and no lists. */
const cellsOf = (id: InstrumentId) => {
  const [head = '', ...lines] = tables[`tables/${id}.csv`]!.trim().split('\n');
  const headings = head.split(',');
  return lines.map((line) => {
    const cells = line.split(',');
    return (heading: string) => cells[headings.indexOf(heading)] ?? '';
  });
};

/** Keys as numbers or as names; middle C is C4 = 60 in every table of this example. */
const keyOf = (text: string): number => {
  const name = /^([A-G])(#?)(\d)$/.exec(text);
  if (name === null) return Number(text);
  return 'C D EF G A B'.indexOf(name[1]!) + (name[2] === '#' ? 1 : 0) + 12 * (Number(name[3]) + 1);
};

const limits = (text: string): [number, number] => {
  const [lowest = '', highest = ''] = text.split('-');
  return [keyOf(lowest), keyOf(highest)];
};

const shelf: MemoryPlayer = {
  id: 'shelf',
  head: null,
  width: null,
  perZone: 50_000,
  perCopy: 2_000_000,
  shares: 'machine',
  loadRate: 100_000_000,
};
const players: Record<InstrumentId, MemoryPlayer> = {
  bowed: shelf,
  brass: shelf,
  reeds: {
    id: 'pit',
    head: { frames: 100_000 },
    width: 4,
    perZone: 20_000,
    perCopy: 4_000_000,
    shares: 'copy',
    loadRate: 50_000_000,
  },
  bells: {
    id: 'stage',
    head: { bytes: 3_000_000 },
    width: null,
    perZone: 0,
    perCopy: 1_000_000,
    shares: 'copy',
    loadRate: 6_000_000,
  },
};
const grains: Record<InstrumentId, Grain> = {
  bowed: 'articulation',
  brass: 'articulation',
  reeds: 'sample',
  bells: 'sample',
};

const memoryOf = (id: InstrumentId): MemoryInstrument => {
  const cells = cellsOf(id);
  const samples = cells.map((cell) => {
    const frames = Number(cell('frames') || cell('bytes'));
    const channels = Number(cell('channels') || 1);
    const width = Number(cell('bits') || 8) / 8;
    return [cell('sample'), { frames, channels, rate: 48_000, width, present: true }] as const;
  });
  return {
    sha256: id,
    player: players[id],
    samples: Object.fromEntries(samples),
    zones: cells.map((cell) => [cell('sample')]),
    readings: id === 'bells' ? [{ zones: [0, 1, 2], bytes: 11_750_000 }] : [],
  };
};

const zonesOf = (id: InstrumentId, keys: readonly string[]) =>
  keys.map((key) => cellsOf(id).findIndex((cell) => cell('key') === key));

const needOf = (id: InstrumentId, cue: number): ReelNeed => {
  const held = Object.entries(needs[id][cue]!).map(
    ([name, { held }]) => [name, zonesOf(id, held)] as const,
  );
  return players[id].shares === 'machine'
    ? {
        zones: [...new Set(held.flatMap(([, zones]) => zones))],
        copies: held.map(([name]) => name),
      }
    : { byCopy: Object.fromEntries(held) };
};

const entry = (id: InstrumentId): ReelInstrument => ({
  id,
  machine: id === 'bells' ? 'rear' : 'front',
  instrument: memoryOf(id),
  needs: cues.map((_, cue) => needOf(id, cue)),
});

const reelWith = (front: number): Reel => ({
  machines: { front, rear: 130_000_000 },
  instruments: ids.map(entry),
});
const reel = reelWith(170_000_000);

describe('what the cues need', () => {
  const rows = (id: InstrumentId): TableRow[] =>
    cellsOf(id).map((cell) => ({
      articulation: cell('articulation') === '' ? null : cell('articulation'),
      switchKey: cell('switch') === '' ? null : keyOf(cell('switch')),
      keys: limits(cell('keys')),
      velocities: limits(cell('velocities')),
    }));

  test.each(ids)('%s', (id) => {
    const prefix = `${id[0]!.toUpperCase()}${id.slice(1)}`;
    const keys = cellsOf(id).map((cell) => cell('key'));
    const grainZones = rows(id).map(({ articulation, velocities }) => ({
      articulation,
      velocities,
      controllers: [],
      microphone: null,
    }));
    const found = cues.map(({ tracks }) => {
      const own = tracks.filter(({ name }) => name.startsWith(prefix));
      const needed = own.map(({ name, events }) => {
        const cue = events.map(([tick, status, key, velocity]) => ({
          tick,
          seconds: tick / 960,
          kind: status >> 4 === 9 ? ('note-on' as const) : ('note-off' as const),
          key,
          velocity,
        }));
        const sets = reachedByCopy(rows(id), [cue], 0);
        // Nothing is in doubt: what is reached is reached in the plain reading.
        expect(sets.flat(2)).toEqual([]);
        const reached = sets.flatMap((one, zone) => (one.length > 0 ? [zone] : []));
        const held = closedUp(grainZones, reached, grains[id]);
        const named = (zones: readonly number[]) => zones.map((zone) => keys[zone]);
        return [name, { reached: named(reached), held: named(held) }] as const;
      });
      return Object.fromEntries(needed);
    });
    expect(found).toEqual(needs[id]);
  });

  test('the status bytes agree with the channels, and ticks never fall', () => {
    for (const { channel, events } of cues.flatMap(({ tracks }) => tracks)) {
      expect(events.map(([, status]) => (status & 0x0f) + 1)).toEqual(events.map(() => channel));
      const ticks = events.map(([tick]) => tick);
      expect(ticks).toEqual([...new Set(ticks)].sort((a, b) => a - b));
    }
  });
});

describe('bytes', () => {
  test.each(ids.flatMap((id) => runs.map((run) => [id, run] as const)))('%s in %s', (id, run) => {
    const { likely, low, high } = instrumentFigure(entry(id), cuesOf(run));
    expect({ likely, high }).toEqual(instruments[id][run]);
    expect(low).toBe(likely);
  });

  test.each(machineIds.flatMap((id) => runs.map((run) => [id, run] as const)))(
    '%s in %s',
    (id, run) => {
      const { likely, low, high, fits } = machineFigure(reel, id, cuesOf(run));
      expect({ likely, high }).toEqual(machines[id].runs[run]);
      expect(low).toBe(likely);
      expect(fits).toBe(machines[id].runs[run].high <= machines[id].budget);
    },
  );

  test('full: every copy of the reel holds every zone', () => {
    const copies: Record<InstrumentId, number> = { bowed: 2, brass: 2, reeds: 2, bells: 1 };
    const full = ids.map((id) => {
      const instrument = memoryOf(id);
      const all = instrument.zones.map((_, zone) => zone);
      return { instrument, copies: Array.from({ length: copies[id] }, () => all) };
    });
    expect(machine(full.slice(0, 3), null).likely).toBe(machines.front.full);
    expect(figure(full[3]!.instrument, full[3]!.copies).likely).toBe(machines.rear.full);
    expect(machine(full, null).likely).toBe(total.full);
  });

  test.each(machineIds)('the reel and the peak on %s', (id) => {
    const { budget, reelFits, over } = machines[id];
    const all = machineFigure(reel, id, cuesOf('1234'));
    expect(budget).toBe(reel.machines[id]);
    expect(all.fits).toBe(reelFits);
    expect(missing(reel, cuesOf('1234'))[id] ?? 0).toBe(over);
    const cue = peak(reel, id);
    expect({ cue: cues[cue]!.id, bytes: machineFigure(reel, id, [cue]).likely }).toEqual(
      machines[id].peak,
    );
  });

  test('both machines', () => {
    expect(totalBytes(reel, cuesOf('1234'))).toBe(total.reel);
    expect(cues.map((_, cue) => totalBytes(reel, [cue]))).toEqual(total.cues);
    const cue = peak(reel);
    expect({ cue: cues[cue]!.id, bytes: totalBytes(reel, [cue]) }).toEqual(total.peak);
  });
});

/** Sums of quotients may differ in their last bits. */
const same = (seconds: number | null, expected: number) => {
  expect(seconds).toBeCloseTo(expected, 9);
};

const expectChange = (from: Run | null, to: Run, expected: ExampleChange) => {
  const [before, after] = [from === null ? null : cuesOf(from), cuesOf(to)];
  for (const id of ids) {
    expect([id, instrumentChange(entry(id), before, after)]).toEqual([
      id,
      expected.instruments[id],
    ]);
  }
  for (const id of machineIds) {
    const { load, mayGo, seconds } = expected.machines[id];
    expect(machineChange(reel, id, before, after)).toEqual({ load, mayGo });
    same(machineSeconds(reel, id, before, after), seconds);
  }
  const { load, mayGo, seconds } = expected;
  expect(reelChange(reel, before, after)).toEqual({ load, mayGo });
  same(changeSeconds(reel, before, after), seconds);
};

describe('changes', () => {
  test.each([
    [0, null, '1'],
    [1, '1', '2'],
    [2, '2', '3'],
    [3, '3', '4'],
  ] as const)('into cue %i', (cue, from, to) => expectChange(from, to, changes[cue]!));

  test.each([0, 1, 2])('into group %i', (group) => {
    expectChange(
      grouping.groups[group - 1] ?? null,
      grouping.groups[group]!,
      grouping.changes[group]!,
    );
  });
});

const asIndices = ({ groups, loaded }: ExampleGrouping): Grouping => ({
  groups: groups.map(cuesOf),
  loaded,
});

describe('loading groups', () => {
  test('the best, and the other with as many groups', () => {
    const fewest = groupings(reel).filter(({ groups }) => groups.length === 3);
    expect(bestGrouping(reel)).toEqual(asIndices(grouping));
    expect(fewest).toEqual([grouping, grouping.other].map(asIndices));
    expect(groupings(reel).some(({ groups }) => groups.length < 3)).toBe(false);
  });

  test.each(otherMemories)('with $memory on front', ({ memory, budget, best, next, ...more }) => {
    expect(withFrontMemory(memory)).not.toBe(keepsetYaml);
    const other = reelWith(budget);
    const fewest = groupings(other).filter(({ groups }) => groups.length === best.groups.length);
    expect(fewest).toEqual((next === null ? [best] : [best, next]).map(asIndices));
    expect(bestGrouping(other)).toEqual(asIndices(best));
    const over = cues.flatMap(({ id }, cue) =>
      Object.entries(missing(other, [cue])).map(([name, bytes]) => {
        expect(name).toBe('front');
        return [id, bytes];
      }),
    );
    expect(Object.fromEntries(over)).toEqual(more.missing);
  });
});

describe('placement', () => {
  const everywhere = { bowed: 'front', brass: 'front', reeds: 'front', bells: 'rear' };

  test('one instrument moves', () => {
    const way = { ...everywhere, bowed: 'rear' };
    expect(placement.moves.map(({ instrument }) => instrument)).toEqual(['bowed']);
    expect(placements(reel)).toEqual({ bytes: placement.bytes, moved: 1, ways: [way] });
    for (const id of machineIds) {
      const here = reel.instruments.filter((one) => way[one.id as InstrumentId] === id);
      const { likely, high } = figureTogether(here, cuesOf('1234'));
      expect({ likely, high }).toEqual(placement.machines[id]);
    }
  });

  test.each(otherMemories)('with $memory on front', ({ budget, moves }) => {
    const ways = placements(reelWith(budget))?.ways ?? null;
    expect(ways).toEqual(moves === null ? null : [{ ...everywhere, [moves]: 'rear' }]);
  });
});
