import { describe, expect, test } from 'vitest';
import { harbourBank } from '../../src/demo/harbour-bank.ts';
import { writeSoundFont } from '../../src/demo/soundfont-writer.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { readSoundFont } from '../../src/instruments/soundfont/read.ts';
import { zoneTable } from '../../src/instruments/zone-table/read.ts';
import { inspectInstrument } from '../../src/keep/inspect.ts';
import { doubtSet } from '../../src/terms/doubt.ts';
import { amount, readBank, type RawZone } from '../demo/read-bank.ts';
import { instrumentOf, mebibyte, start } from '../playback/hand-made.ts';

const digest = (): string => 'f'.repeat(64);

const single = { signals: [], gates: [[]] };

const inspectTable = (...rows: readonly string[]) =>
  inspectInstrument(
    zoneTable(new TextEncoder().encode(rows.join('\n')), 'horns.csv', 4, digest),
    'zone table',
  );

describe('a zone table', () => {
  const found = inspectTable(
    'articulation;switch;keys;velocities;frames;rate;bits;channels;round-robin;release;microphone',
    'sustain;24;48-59|60-71;1-64|65-127;48000;48000;24;2;;;close|room',
    'sustain;;48-71;;24000;48000;24;2;;yes;close',
    'staccato;25;40-43|60;1-127;9600;96000;16;1;3;;close',
  );

  test('as a whole, by hand: frames x channels x bytes of a point', () => {
    expect(found.instrument).toMatchObject({
      id: 'horns',
      source: 'horns.csv',
      kind: 'zone table',
      playedAs: 'single',
      zones: 8 + 1 + 6,
      samples: 8 + 1 + 6,
      unknownSamples: 0,
      bytes: 8 * 48_000 * 6 + 24_000 * 6 + 6 * 9_600 * 2,
      seconds: 8 + 0.5 + 6 * 0.1,
      rates: [48_000, 96_000],
      widths: [2, 3],
      channels: [1, 2],
    });
    expect(found).toMatchObject({ schema: 'keepset/inspect@1', player: null, memory: null });
  });

  test('an articulation: keys without releases, layers, takes, microphones', () => {
    expect(found.articulations).toEqual([
      {
        name: 'sustain',
        switch: 'C1 (24)',
        zones: 9,
        samples: 9,
        bytes: 8 * 48_000 * 6 + 24_000 * 6,
        keys: [[48, 71]],
        velocities: [1, 127],
        layers: [
          { velocity: [1, 64], controllers: [], zones: 4 },
          { velocity: [65, 127], controllers: [], zones: 4 },
          { velocity: [1, 127], controllers: [], zones: 1 },
        ],
        roundRobins: 1,
        releases: 1,
        microphones: ['close', 'room'],
      },
      {
        name: 'staccato',
        switch: 'C#1 (25)',
        zones: 6,
        samples: 6,
        bytes: 6 * 9_600 * 2,
        keys: [
          [40, 43],
          [60, 60],
        ],
        velocities: [1, 127],
        layers: [{ velocity: [1, 127], controllers: [], zones: 6 }],
        roundRobins: 3,
        releases: 0,
        microphones: ['close'],
      },
    ]);
  });

  test('samples that are only bytes have a size, and no length or form', () => {
    const { instrument } = inspectTable('keys;bytes', '60;1000001');
    expect(instrument).toMatchObject({ bytes: 1_000_001, seconds: null });
    expect(instrument).toMatchObject({ rates: [], widths: [], channels: [] });
  });
});

describe('made by hand', () => {
  test('only the plain reading tells of keys and velocities', () => {
    const starts = [
      start(0, { keys: [50, 60], velocities: [20, 90] }),
      start(1, { doubt: doubtSet('engine') }),
    ];
    const [one] = inspectInstrument(
      instrumentOf({ ...single, starts }, [1, 2]),
      'soundfont bank',
    ).articulations;
    expect(one).toMatchObject({ keys: [[50, 60]], velocities: [20, 90] });
    expect(one).toMatchObject({ zones: 2, samples: 2, bytes: 3 * mebibyte, roundRobins: null });
  });

  test('where nothing starts plainly, all that can start tells', () => {
    const starts = [
      start(0, { keys: [50, 60], doubt: doubtSet('engine') }),
      start(1, { keys: [62, 62], event: 'release', doubt: doubtSet('engine') }),
    ];
    const [one] = inspectInstrument(
      instrumentOf({ ...single, starts }, [1, 2]),
      'soundfont bank',
    ).articulations;
    expect(one?.keys).toEqual([
      [50, 60],
      [62, 62],
    ]);
    expect(one?.releases).toBe(1);
  });

  test('an articulation without zones', () => {
    const [one] = inspectInstrument(
      instrumentOf({ ...single, starts: [] }, []),
      'zone table',
    ).articulations;
    expect(one).toMatchObject({ zones: 0, bytes: 0, keys: [], velocities: null, roundRobins: 0 });
  });

  test('samples that are not there count as samples, and nothing else', () => {
    const made = instrumentOf({ ...single, starts: [start(0)] }, [1, 2]);
    const samples = made.samples.map((one, i) => (i === 1 ? { ...one, present: false } : one));
    expect(inspectInstrument({ ...made, samples }, 'soundfont bank').instrument).toMatchObject({
      samples: 2,
      unknownSamples: 1,
      bytes: mebibyte,
      // 1 MiB at 2 bytes a frame and 48 000 frames a second.
      seconds: 10.923,
    });
    const noRate = made.samples.map((one) => ({ ...one, rate: 0 }));
    const { instrument } = inspectInstrument({ ...made, samples: noRate }, 'soundfont bank');
    expect(instrument).toMatchObject({ seconds: null, rates: [0] });
  });

  test('the player, if a template names one', () => {
    const memory = { bytes: 5, low: 4, high: 6, basis: 'fitted' } as const;
    const made = instrumentOf({ ...single, starts: [] }, []);
    expect(inspectInstrument(made, 'zone table', { player: 'p', memory })).toMatchObject({
      player: 'p',
      memory,
    });
  });
});

test('the demo bank, against a second reader of its bytes', async () => {
  const bytes = writeSoundFont(harbourBank());
  const raw = readBank(bytes);
  const files = new MemoryFiles({ 'harbour.sf2': bytes });
  const bank = await readSoundFont(files, 'harbour.sf2', null, digest);
  const { instrument, articulations } = inspectInstrument(bank, 'soundfont bank');
  // SoundFont 2.04, section 8.1.2: generators 41 instrument and 53 sampleID.
  const [instrumentLink, sampleLink] = [41, 53];
  const zones = raw.instruments.flatMap((one) =>
    one.zones.filter((zone) => amount(zone, sampleLink) !== undefined),
  );
  expect(instrument.zones).toBe(zones.length);
  expect(instrument.samples).toBe(raw.samples.length);
  expect(instrument.bytes).toBe(
    raw.samples.reduce((sum, sample) => sum + 2 * (sample.end - sample.start), 0),
  );
  expect(instrument.rates).toEqual(
    [...new Set(raw.samples.map(({ rate }) => rate))].sort((a, b) => a - b),
  );
  const samplesOf = new Map(
    raw.presets.map(({ bank: number, program, name, zones: own }) => {
      const used = own.flatMap((zone) => {
        const target = amount(zone, instrumentLink);
        const inner = target === undefined ? [] : raw.instruments[target]!.zones;
        return inner.filter((one) => meet(zone, one, 43) && meet(zone, one, 44));
      });
      const samples = used.flatMap((zone) => amount(zone, sampleLink) ?? []);
      return [`${number}:${program} ${name}`, new Set(samples).size];
    }),
  );
  expect(articulations.map(({ name, samples }) => [name, samples])).toEqual([
    ...[...samplesOf].sort(([a], [b]) => articulationOrder(a) - articulationOrder(b)),
  ]);
});

/** Generators 43 keyRange and 44 velRange: the low end is in the low byte. */
const meet = (a: RawZone, b: RawZone, range: 43 | 44): boolean => {
  const [x, y] = [amount(a, range) ?? 0x7f00, amount(b, range) ?? 0x7f00];
  return Math.max(x & 0xff, y & 0xff) <= Math.min(x >> 8, y >> 8);
};

const articulationOrder = (name: string): number => {
  const [bank = 0, program = 0] = (name.split(' ')[0] ?? '').split(':').map(Number);
  return bank * 128 + program;
};
