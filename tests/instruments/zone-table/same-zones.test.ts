import * as fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Instrument } from '../../../src/instruments/instrument.ts';
import { zoneDoubts } from '../../../src/keep/reach.ts';
import { minimal } from '../../../src/terms/doubt.ts';
import { randomEvents } from '../../oracle/random-events.ts';
import { usageOf } from '../../playback/hand-made.ts';
import { bankBytes, instrument, keys, sample, velocities } from '../soundfont/bank-bytes.ts';
import { readBank } from '../soundfont/reading.ts';
import { readTable } from './reading.ts';

/** A zone as both a table and a bank can say it; frames of 16 bits, mono. */
interface PlainZone {
  readonly keys: readonly [number, number];
  readonly velocities: readonly [number, number];
  readonly sample: number;
}

const ordered = (a: number, b: number): readonly [number, number] => [
  Math.min(a, b),
  Math.max(a, b),
];
/** At and beside the keys and velocities that random cues play. */
const key = fc.constantFrom(0, 46, 47, 48, 49, 59, 60, 61, 62, 71, 72, 73, 126, 127);
const velocity = fc.constantFrom(1, 2, 62, 63, 64, 65, 66, 99, 100, 101, 126, 127);

const sampleFrames = [100, 90, 60, 310];

const zone: fc.Arbitrary<PlainZone> = fc
  .tuple(key, key, velocity, velocity, fc.nat({ max: sampleFrames.length - 1 }))
  .map(([a, b, soft, loud, number]) => ({
    keys: ordered(a, b),
    velocities: ordered(soft, loud),
    sample: number,
  }));

const asBank = (zones: readonly PlainZone[]): Promise<Instrument> =>
  readBank(
    bankBytes({
      presets: [{ zones: [[instrument(0)]] }],
      instruments: [
        {
          zones: zones.map((one) => [
            keys(...one.keys),
            velocities(...one.velocities),
            sample(one.sample),
          ]),
        },
      ],
      samples: sampleFrames.map((frames, i) => ({
        name: `tone ${String(i)}`,
        start: i * 100,
        end: i * 100 + frames,
      })),
      points: 1_000,
    }),
    { bank: 0, program: 0 },
  );

const asTable = (zones: readonly PlainZone[]): Instrument =>
  readTable(
    [
      'sample,frames,bits,channels,rate,velocities,keys',
      ...zones.map((one) =>
        [
          `tone ${String(one.sample)}`,
          sampleFrames[one.sample],
          ...['16', '1', '44100'],
          one.velocities.join('-'),
          one.keys.join('..'),
        ].join(','),
      ),
    ].join('\n'),
  );

/** Per zone the name, bytes and rate of its sample; a bank numbers its samples. */
const samplesOf = ({ zones, samples }: Instrument): readonly string[] =>
  zones.map((one) => {
    const [{ name, frames, channels, width, rate }] = one.samples.map((i) => samples[i]!) as [
      Instrument['samples'][number],
    ];
    return [name.replace(/^\d+:/u, ''), frames * channels * width, rate].join(' ');
  });

test('a table and a bank that say the same reach the same zones', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(zone, { minLength: 1, maxLength: 12 }),
      randomEvents(),
      async (zones, events) => {
        const [bank, table] = [await asBank(zones), asTable(zones)];
        expect(samplesOf(table)).toEqual(samplesOf(bank));
        expect(zoneDoubts(table, [usageOf(table, events)])).toEqual(
          zoneDoubts(bank, [usageOf(bank, events)]),
        );
      },
    ),
    { numRuns: 150 },
  );
});

/** Rows with lists and the rows they stand for are one instrument. */
test('a row of lists reaches what its zones reach when each has a row', () => {
  fc.assert(
    fc.property(
      fc.array(zone, { minLength: 1, maxLength: 3 }),
      fc.array(zone, { minLength: 1, maxLength: 3 }),
      randomEvents(),
      (some, others, events) => {
        const keyCells = some.map((one) => one.keys.join('-'));
        const velocityCells = others.map((one) => one.velocities.join('-'));
        const whole = readTable(
          `keys,velocities,bytes,round-robin\n${keyCells.join('|')},${velocityCells.join('|')},1,2\n`,
        );
        const single = readTable(
          [
            'keys,velocities,bytes',
            ...keyCells.flatMap((k) =>
              velocityCells.flatMap((v) => [`${k},${v},1`, `${k},${v},1`]),
            ),
          ].join('\n'),
        );
        const doubts = [whole, single].map((one) => zoneDoubts(one, [usageOf(one, events)]));
        expect(doubts[0]!.map(minimal)).toEqual(doubts[1]!.map(minimal));
      },
    ),
    { numRuns: 60 },
  );
});

test('the random cues reach some zones and not others', () => {
  const table = asTable([
    { keys: [60, 60], velocities: [100, 127], sample: 0 },
    { keys: [62, 62], velocities: [1, 127], sample: 0 },
  ]);
  const cues = fc.sample(randomEvents(), { numRuns: 50, seed: 1 });
  const counts = cues.map((events) => zoneDoubts(table, [usageOf(table, events)])[0]!.length);
  expect(new Set(counts).size).toBeGreaterThan(1);
});
