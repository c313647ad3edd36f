import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import type { Instrument } from '../../src/instruments/instrument.ts';
import { readSoundFont } from '../../src/instruments/soundfont/read.ts';
import { InputError } from '../../src/terms/errors.ts';
import {
  assemble,
  bankBytes,
  bankParts,
  instrument,
  keys,
  pan,
  sample,
  velocities,
  type BankSpec,
  type Gen,
} from '../instruments/soundfont/bank-bytes.ts';

/** Reads a hostile bank: it is refused with an InputError, or the instrument holds together. */
const survives = async (bytes: Uint8Array, preset = false): Promise<void> => {
  const files = new MemoryFiles({ 'bank.sf2': bytes });
  const wanted = preset ? { bank: 0, program: 0 } : null;
  try {
    checkInstrument(await readSoundFont(files, 'bank.sf2', wanted, () => ''));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    expect(error.finding).toMatchObject({ severity: 'error', file: 'bank.sf2' });
  }
  // What is allocated is what was read, save small tables: a count is never believed unseen.
  expect(files.bytesRead('bank.sf2')).toBeLessThanOrEqual(bytes.length + 65_536);
};

const checkInstrument = ({ zones, samples, articulations, program, presetZones }: Instrument) => {
  const whole = (value: number, limit: number): boolean =>
    Number.isInteger(value) && value >= 0 && value < limit;
  const ascends = (numbers: readonly number[]): boolean =>
    numbers.every((value, i) => i === 0 || value > numbers[i - 1]!);
  const faults = [
    ascends(zones.map(({ id }) => id)) || 'zone ids ascend',
    zones.every((zone) => zone.samples.every((one) => whole(one, samples.length))) ||
      'samples exist',
    samples.every(({ frames }) => whole(frames, 2 ** 32)) || 'frames are counts',
    samples.every(
      ({ partner, present }, i) =>
        partner === null || (present && samples[partner]!.partner === i && partner !== i),
    ) || 'partners are mutual',
    program.zones === zones.length || 'zones are counted',
    program.articulations === articulations.length || 'articulations are counted',
    presetZones.length === program.starts.length || 'each start has a preset zone',
    program.starts.every(
      ({ zone, articulation, gate, keys: [lo, hi], velocities: [soft, loud] }) =>
        whole(zone, zones.length) &&
        whole(articulation, articulations.length) &&
        whole(gate, program.gates.length) &&
        whole(lo, hi + 1) &&
        hi < 128 &&
        whole(soft, loud + 1) &&
        loud < 128,
    ) || 'starts hold together',
    articulations.every(({ layers }) =>
      layers.every(
        (layer) => ascends(layer.zones) && layer.zones.every((one) => whole(one, zones.length)),
      ),
    ) || 'layers name zones',
  ];
  expect(faults.filter((fault) => fault !== true)).toEqual([]);
};

const good = bankBytes({
  presets: [
    { zones: [[keys(0, 60)], [velocities(1, 90), instrument(0)], [instrument(1)]] },
    { bank: 128, zones: [[instrument(1)]] },
    { program: 5, zones: [] },
  ],
  instruments: [
    { zones: [[pan(5)], [keys(10, 50), sample(0)], [sample(1)]] },
    { zones: [[velocities(5, 10), sample(2)]] },
  ],
  samples: [
    { type: 4, link: 1 },
    { type: 2, link: 0 },
    { start: 900, end: 990 },
  ],
  version: [2, 4],
  sm24: 1000,
  info: [['irom', Uint8Array.of(65, 0)]],
});
const listsAt = Buffer.from(good).lastIndexOf('LIST');
const headAt = Buffer.from(good).indexOf('smpl') + 8;

describe('banks that are not what they should be', () => {
  test('the bank that is damaged here is sound', async () => {
    const files = new MemoryFiles({ 'bank.sf2': good });
    expect((await readSoundFont(files, 'bank.sf2', null, () => '')).zones).toHaveLength(3);
  });

  test('random bytes', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 400 }), (bytes) => survives(bytes)),
    );
  });

  test('every length', async () => {
    for (
      let length = 0;
      length < good.length;
      length += length < headAt || length > listsAt ? 1 : 97
    ) {
      await survives(good.subarray(0, length));
    }
  });

  test('every byte of the headers and lists changed to extremes', async () => {
    const places = Array.from({ length: good.length }, (_, i) => i);
    for (const place of places.filter((i) => i < headAt || i >= listsAt)) {
      for (const value of [0x00, 0x01, 0x7f, 0x80, 0xff]) {
        const bytes = good.slice();
        bytes[place] = value;
        await survives(bytes);
      }
    }
  });

  test('several bytes changed, some cut out or put in twice', async () => {
    const spot = fc.oneof(
      fc.integer({ min: 0, max: headAt - 1 }),
      fc.integer({ min: listsAt, max: good.length - 1 }),
    );
    const change = fc.oneof(
      fc.record({
        kind: fc.constant('write'),
        at: spot,
        bytes: fc.uint8Array({ minLength: 1, maxLength: 4 }),
      }),
      fc.record({ kind: fc.constant('cut'), at: spot, length: fc.integer({ min: 1, max: 60 }) }),
      fc.record({ kind: fc.constant('repeat'), at: spot, length: fc.integer({ min: 1, max: 60 }) }),
    );
    const apply = (
      bytes: Uint8Array,
      one: { at: number; bytes?: Uint8Array; length?: number; kind: string },
    ) => {
      const [before, after] = [bytes.subarray(0, one.at), bytes.subarray(one.at)];
      if (one.bytes !== undefined)
        return Buffer.concat([before, one.bytes, after.subarray(one.bytes.length)]);
      const length = one.length ?? 0;
      return one.kind === 'cut'
        ? Buffer.concat([before, after.subarray(length)])
        : Buffer.concat([before, after.subarray(0, length), after]);
    };
    await fc.assert(
      fc.asyncProperty(
        fc.array(change, { minLength: 1, maxLength: 4 }),
        fc.boolean(),
        fc.boolean(),
        async (changes, repaired, preset) => {
          const bytes = Uint8Array.from(changes.reduce<Uint8Array>(apply, good));
          // With the outer size put right the damage gets past the first check.
          if (repaired) new DataView(bytes.buffer).setUint32(4, bytes.length - 8, true);
          await survives(bytes, preset);
        },
      ),
      { numRuns: 1000 },
    );
  });

  test('well-formed lists with any numbers in them', async () => {
    const word = fc.oneof(fc.integer({ min: 0, max: 4 }), fc.integer({ min: 0, max: 65_535 }));
    const operator = fc.oneof(
      fc.constantFrom(17, 41, 43, 44, 53),
      fc.integer({ min: 0, max: 65_535 }),
    );
    const zones = fc.array(
      fc.array(fc.tuple(operator, word) as fc.Arbitrary<Gen>, { maxLength: 4 }),
      {
        maxLength: 4,
      },
    );
    const long = fc.oneof(
      fc.integer({ min: 0, max: 1100 }),
      fc.integer({ min: 0, max: 0xffff_ffff }),
    );
    const spec: fc.Arbitrary<BankSpec> = fc.record({
      presets: fc.array(fc.record({ bank: word, program: word, zones }), {
        minLength: 1,
        maxLength: 4,
      }),
      instruments: fc.array(fc.record({ zones }), { minLength: 1, maxLength: 4 }),
      samples: fc.array(fc.record({ start: long, end: long, link: word, type: word }), {
        maxLength: 4,
      }),
      points: fc.oneof(fc.constant(null), fc.integer({ min: 0, max: 60 })),
      version: fc.tuple(fc.constant(2), fc.integer({ min: 0, max: 5 })),
    });
    await fc.assert(
      fc.asyncProperty(spec, fc.boolean(), (one, preset) => survives(bankBytes(one), preset)),
      { numRuns: 1000 },
    );
  });
});

test('the largest product that is allowed is made in bounded time and memory', async () => {
  const inner = Array.from({ length: 2000 }, () => [sample(0)]);
  const outer = Array.from({ length: 1000 }, () => [instrument(0)]);
  const files = new MemoryFiles({
    'bank.sf2': assemble(
      bankParts({ presets: [{ zones: outer }], instruments: [{ zones: inner }] }),
    ),
  });
  const { program } = await readSoundFont(files, 'bank.sf2', null, () => '');
  expect(program.starts).toHaveLength(2_000_000);
});
