/**
 * The worked example, once more by the naive models: two ways to the same numbers. The sizes of the
 * template are typed in here a second time; the tables and the cues are read as they stand.
 */
import { describe, expect, test } from 'vitest';
import {
  cues,
  doubts,
  instruments,
  machines,
  settledPlain,
  tables,
  ticksPerQuarter,
  total,
} from '../../reference/template-worked-example.ts';
import { closedUp, type Grain } from './grain.ts';
import { figure, machine, type CopyZones, type MemoryInstrument } from './memory.ts';
import { reachedByCopy, type TableCue, type TableRow } from './tables.ts';

type Id = keyof typeof instruments;

/** The cells of a table, by the headings; this example has no quotes and no lists. */
const cellsOf = (id: Id) => {
  const [head = '', ...lines] = tables[`tables/${id}.csv`]!.trim().split('\n');
  const headings = head.split(',');
  return lines.map((line) => {
    const cells = line.split(',');
    return (heading: string) => cells[headings.indexOf(heading)] ?? '';
  });
};

/** Keys as numbers or as names such as F#3, by the octave of middle C. */
const keyOf = (text: string, middleCOctave: number): number => {
  const name = /^([A-G])(#?)(\d+)$/.exec(text);
  if (name === null) return Number(text);
  const semitones = 'C D EF G A B'.indexOf(name[1]!) + (name[2] === '#' ? 1 : 0);
  return 60 + 12 * (Number(name[3]) - middleCOctave) + semitones;
};

const limits = (text: string, middleCOctave = 4): [number, number] => {
  const [lowest = '', highest = ''] = text.split('-');
  return [keyOf(lowest, middleCOctave), keyOf(highest, middleCOctave)];
};

const octaves: Record<Id, number> = { viols: 4, reeds: 3, drum: 4 };

const rowsOf = (id: Id): TableRow[] =>
  cellsOf(id).map((cell) => ({
    articulation: cell('articulation') === '' ? null : cell('articulation'),
    switchKey: cell('switch') === '' ? null : keyOf(cell('switch'), octaves[id]),
    keys: limits(cell('keys'), octaves[id]),
    velocities: limits(cell('velocities')),
  }));

const memoryOf = (id: Id): MemoryInstrument => {
  const cells = cellsOf(id);
  const all = cells.map((_, zone) => zone);
  const settings = {
    viols: {
      player: { head: null, width: null, perZone: 500, perCopy: 100_000, shares: 'machine' },
      readings: [],
    },
    reeds: {
      player: { head: { frames: 1000 }, width: 4, perZone: 200, perCopy: 40_000, shares: 'copy' },
      readings: [{ zones: all, bytes: 104_700 }],
    },
    drum: {
      player: { head: { bytes: 65_536 }, width: null, perZone: 0, perCopy: 8192, shares: 'copy' },
      readings: [
        { zones: [], bytes: 20_000 },
        { zones: all, bytes: 244_080 },
      ],
    },
  } as const;
  const samples = cells.map((cell) => {
    // Bytes in a table are the whole sample.
    const frames = Number(cell('frames') || cell('bytes'));
    const channels = Number(cell('channels') || 1);
    const width = Number(cell('bits') || 8) / 8;
    const rate = Number(cell('rate') || 44_100);
    return [cell('sample'), { frames, channels, rate, width, present: true }] as const;
  });
  const { player, readings } = settings[id];
  return {
    sha256: id,
    player: { id, ...player },
    samples: Object.fromEntries(samples),
    zones: cells.map((cell) => [cell('sample')]),
    readings,
  };
};

const grains: Record<Id, Grain> = { viols: 'articulation', reeds: 'sample', drum: 'layer' };

/** The cues of one track, in reel order. Two quarters to the second: the tempo of a file without. */
const copyOf = (name: string): TableCue[] =>
  cues.map(({ tracks }) =>
    tracks
      .filter((track) => track.name === name)
      .flatMap(({ events }) =>
        events.map(([tick, status, key, velocity]) => ({
          tick,
          seconds: tick / ticksPerQuarter / 2,
          kind: status >> 4 === 9 ? ('note-on' as const) : ('note-off' as const),
          key,
          velocity,
        })),
      ),
  );

const trackNames = (id: Id) => Object.keys(instruments[id].copies);
const zoneKeys = (id: Id) => cellsOf(id).map((cell) => cell('key'));

/** The doubt sets of each zone, for each copy. */
const setsOf = (id: Id) => trackNames(id).map((name) => reachedByCopy(rowsOf(id), copyOf(name), 0));

/** The zones each copy reaches under the doubts that are open. */
const reachedBy = (id: Id, open: readonly string[]): CopyZones =>
  setsOf(id).map((zones) =>
    zones.flatMap((sets, zone) =>
      sets.some((set) => set.every((doubt) => open.includes(doubt))) ? [zone] : [],
    ),
  );

/** What each copy holds of them: those that share all hold the same. */
const heldBy = (id: Id, open: readonly string[]): CopyZones => {
  const zones = cellsOf(id).map((cell) => ({
    articulation: cell('articulation') || null,
    velocities: limits(cell('velocities')),
    controllers: [],
    microphone: null,
  }));
  const reached = reachedBy(id, open);
  const needed =
    memoryOf(id).player.shares === 'machine' ? reached.map(() => reached.flat()) : reached;
  return needed.map((kept) => closedUp(zones, kept, grains[id]));
};

const full = (id: Id): CopyZones => trackNames(id).map(() => zoneKeys(id).map((_, zone) => zone));
const open = ['start-state'];
const ids = Object.keys(instruments) as Id[];

describe.each(ids)('%s', (id) => {
  const expected = instruments[id];

  test('what each copy holds', () => {
    const held = heldBy(id, open).map((zones) => zones.map((zone) => zoneKeys(id)[zone]));
    expect(held).toEqual(Object.values(expected.copies));
    const dropped = zoneKeys(id).filter((key) => !held.flat().includes(key));
    expect(dropped).toEqual(expected.dropped);
  });

  test('why: played, or the doubt; the grain brings the others', () => {
    for (const { key, reasons, doubts: sets } of expected.kept) {
      const zone = zoneKeys(id).indexOf(key);
      const found = setsOf(id).map((zones) => zones[zone]!);
      // In this example no zone is reached by two copies in different ways.
      expect(found.filter((one) => one.length > 0).flat()).toEqual(sets);
      const why = sets.map((set) => (set.length === 0 ? 'played' : set.join()));
      expect(why.length === 0 ? ['grain'] : why).toEqual(reasons);
    }
  });

  test('bytes', () => {
    const instrument = memoryOf(id);
    const kept = figure(instrument, heldBy(id, open));
    expect({
      full: figure(instrument, full(id)).likely,
      reached: figure(instrument, reachedBy(id, open)).likely,
      kept: kept.likely,
      low: kept.low,
      high: kept.high,
    }).toEqual(expected.bytes);
    expect(kept.basis).toBe(expected.basis);
    expect(instrument.readings.length).toBe(expected.readings);
  });

  test('samples', () => {
    const { zones } = memoryOf(id);
    expect(new Set(zones.flat()).size).toBe(expected.samples);
    const kept = heldBy(id, open)
      .flat()
      .flatMap((zone) => zones[zone]!);
    expect(new Set(kept).size).toBe(expected.samplesKept);
    expect(zones.length).toBe(expected.zones);
  });
});

const placed = (on: readonly Id[], copies: (id: Id) => CopyZones) =>
  on.map((id) => ({ instrument: memoryOf(id), copies: copies(id) }));

test.each([
  ['left', ['viols', 'drum']],
  ['right', ['reeds']],
] as const)('the machine %s', (name, on) => {
  const { budget, bytes, fits } = machines[name];
  const kept = machine(
    placed(on, (id) => heldBy(id, open)),
    budget,
  );
  expect(machine(placed(on, full), budget).likely).toBe(bytes.full);
  expect(kept).toEqual({ likely: bytes.kept, low: bytes.low, high: bytes.high, fits });
});

test('the price of the doubt, and the figures once it is settled', () => {
  const settled = figure(memoryOf('reeds'), heldBy('reeds', []));
  expect(settled.likely).toBe(settledPlain.reeds.kept);
  expect([settled.low, settled.high]).toEqual([settledPlain.reeds.low, settledPlain.reeds.high]);
  expect(instruments.reeds.bytes.kept - settled.likely).toBe(doubts.all);
  expect(doubts.prices.map(({ bytes }) => bytes)).toEqual([doubts.all]);
  expect(settled.high <= machines.right.budget).toBe(settledPlain.rightFits);
  const held = heldBy('reeds', []).flat();
  expect(zoneKeys('reeds').filter((_, zone) => !held.includes(zone))).toEqual(
    settledPlain.reedsDropped,
  );
  // Nobody else has anything in doubt.
  for (const id of ['viols', 'drum'] as const) expect(heldBy(id, [])).toEqual(heldBy(id, open));
});

test('the totals are the sums', () => {
  const all = ids.map((id) => instruments[id]);
  const sum = (of: (one: (typeof all)[number]) => number) =>
    all.reduce((result, one) => result + of(one), 0);
  expect(total).toEqual({
    bytes: {
      full: sum(({ bytes }) => bytes.full),
      reached: sum(({ bytes }) => bytes.reached),
      kept: sum(({ bytes }) => bytes.kept),
      saved: sum(({ bytes }) => bytes.full - bytes.kept),
    },
    zones: sum(({ zones }) => zones),
    zonesKept: sum(({ kept }) => kept.length),
    samples: sum(({ samples }) => samples),
    samplesKept: sum(({ samplesKept }) => samplesKept),
  });
});

test('the status bytes agree with the channels, and ticks never fall', () => {
  for (const { channel, events } of cues.flatMap(({ tracks }) => tracks)) {
    expect(events.map(([, status]) => (status & 0x0f) + 1)).toEqual(events.map(() => channel));
    const ticks = events.map(([tick]) => tick);
    expect(ticks).toEqual([...new Set(ticks)].sort((a, b) => a - b));
  }
});
