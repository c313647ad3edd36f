/** The price of headroom and pins is what a plan without them would save: two plans, one subtraction. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan } from '../../src/jobs/plan.ts';
import type { Plan } from '../../src/keep/plan.ts';
import { cueBytes } from '../jobs/midi-cue.ts';

const table = `key,articulation,switch,keys,velocities,bytes
a,long,24,48-57,1-64,1000
b,long,24,48-57,65-127,2000
c,long,24,58-72,1-127,4000
d,short,25,48-72,1-127,8000
e,roll,26,48-72,1-127,16000
`;

const pinTexts = [
  '{ instrument: band, articulation: roll }',
  '{ instrument: band, keys: 48-50 }',
  '{ instrument: other, velocities: 100-127 }',
];

const planWith = (shares: string, headroom: string, pins: readonly string[], notes: Notes) => {
  const files = new MemoryFiles({
    'keepset.yaml': `
cues: cues/*.mid
machines: { a: { memory: 1 GiB } }
players: { p: { loads: whole, per-copy: 300 B, shares: ${shares}, unloads: sample } }
instruments: { band: { zones: band.csv, middle-c: C4 }, other: { zones: band.csv, middle-c: C4 } }
routes: [{ track: 'One', instrument: band }, { track: '*', instrument: other }]
headroom: { ${headroom} }
pins: [${pins.join(', ')}]
`,
    'band.csv': table,
    'cues/1m1.mid': cueBytes([
      { name: 'One', notes },
      { name: 'Two', notes: notes.slice(1) },
    ]),
  });
  return plan({ files });
};

const note = fc.record({
  tick: fc.integer({ min: 0, max: 300 }),
  length: fc.integer({ min: 1, max: 60 }),
  key: fc.oneof(fc.constantFrom(24, 25), fc.integer({ min: 44, max: 76 })),
  velocity: fc.integer({ min: 1, max: 127 }),
});
type Notes = readonly (typeof note extends fc.Arbitrary<infer T> ? T : never)[];

/** Zones of all instruments, as prices count them. */
const zones = ({ instruments }: Plan): number =>
  instruments.reduce((sum, { zonesKept }) => sum + zonesKept, 0);

const less = (a: Plan, b: Plan) => ({
  zones: zones(a) - zones(b),
  bytes: a.total.bytes.kept - b.total.bytes.kept,
});

test.each(['machine', 'copy'])('copies share by %s', async (shares) => {
  let dear = 0;
  await fc.assert(
    fc.asyncProperty(
      fc.array(note, { minLength: 1, maxLength: 6 }),
      fc.subarray(pinTexts),
      fc.constantFrom('keys: 0', 'keys: 5', 'keys: 3, velocity: 40'),
      async (notes, pins, headroom) => {
        const made = await planWith(shares, headroom, pins, notes);
        const { allowances } = made;
        expect(allowances.headroom).toEqual(
          less(made, await planWith(shares, 'keys: 0', pins, notes)),
        );
        expect(allowances.pins).toHaveLength(pins.length);
        for (const [i, price] of allowances.pins.entries()) {
          const others = pins.filter((_, j) => j !== i);
          expect(price).toEqual(less(made, await planWith(shares, headroom, others, notes)));
          dear += price.bytes;
        }
        dear += allowances.headroom.bytes;
      },
    ),
    { seed: 71, numRuns: 40 },
  );
  expect(dear).toBeGreaterThan(0);
});
