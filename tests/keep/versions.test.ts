import fc from 'fast-check';
import { expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan } from '../../src/jobs/plan.ts';
import { makePlan } from '../../src/keep/make-plan.ts';
import { asExported } from '../../src/playback/play-copy.ts';
import { cueBytes, type CueNote } from '../jobs/midi-cue.ts';
import { inputOf, randomTemplateReel } from './random-template-reel.ts';

/** What older versions of a cue keep: computed from usage, held against plans made without them. */
test('is the difference to the plan without the older versions', async () => {
  const seen = { several: 0, paid: 0 };
  await fc.assert(
    fc.asyncProperty(
      randomTemplateReel,
      fc.constantFrom(0, 1, 5),
      fc.constantFrom(0, 60),
      async (reel, keys, velocity) => {
        const made = await inputOf(reel, { ...asExported, controllerRoom: 9 });
        const headroom = { keys, velocity, controller: velocity === 0 ? 0 : 9 };
        const input = { ...made, template: { ...made.template, headroom } };
        const { versions, total } = makePlan(input);
        const numbers = new Set(input.files.map(({ cue }) => cue.split(' ')[0]!));
        const expected = [...numbers].flatMap((cue) => {
          const own = input.files
            .filter((file) => file.cue.split(' ')[0] === cue)
            .sort((a, b) => (a.version ?? 0) - (b.version ?? 0));
          if (own.length === 1) return [];
          const files = input.files.filter((file) => !own.slice(0, -1).includes(file));
          const without = makePlan({ ...input, files }).total;
          return {
            cue,
            versions: own.map((file) => file.cue),
            zones: Math.max(0, total.zonesKept - without.zonesKept),
            bytes: Math.max(0, total.bytes.kept - without.bytes.kept),
          };
        });
        expect(versions).toEqual(expected);
        if (expected.length > 0) seen.several++;
        if (expected.some(({ bytes }) => bytes > 0)) seen.paid++;
      },
    ),
    { numRuns: 120, seed: 52 },
  );
  for (const times of Object.values(seen)) expect(times).toBeGreaterThan(5);
}, 120_000);

test('three versions, by hand', async () => {
  const table = 'keys,bytes\n60-60,1000\n61-61,20000\n62-62,300000\n63-63,4000000\n';
  const note = (key: number): CueNote => ({ tick: 0, length: 100, key, velocity: 80 });
  const cue = (...keys: readonly number[]): Uint8Array =>
    cueBytes([{ name: 'Harp', notes: keys.map(note) }]);
  const files = new MemoryFiles({
    'harp.csv': table,
    'cues/1m1.mid': cue(60),
    // 60 is played elsewhere too: only 61 and 62 are the older versions' own.
    'cues/1m2 Quay v2.mid': cue(60, 62),
    'cues/1m2 Quay v10.mid': cue(60, 63),
    'cues/1m2 Quay.mid': cue(61),
  });
  const { versions } = await plan({ files, cues: ['cues'], instrument: 'harp.csv', middleC: 4 });
  expect(versions).toEqual([
    { cue: '1m2', versions: ['1m2', '1m2 v2', '1m2 v10'], zones: 2, bytes: 320_000 },
  ]);
});

test.each([
  // The older one alone has the loud layer in its room.
  { older: 60, newer: 20, zones: 1, bytes: 20_000 },
  // The newer one has it in its own.
  { older: 100, newer: 60, zones: 0, bytes: 0 },
])('room of 8 around $older, then around $newer', async ({ older, newer, zones, bytes }) => {
  const note = (velocity: number): CueNote => ({ tick: 0, length: 100, key: 60, velocity });
  const files = new MemoryFiles({
    'harp.csv': 'keys,velocities,bytes\n60-60,1-64,1000\n60-60,65-127,20000\n',
    'cues/1m2 v1.mid': cueBytes([{ name: 'Harp', notes: [note(older)] }]),
    'cues/1m2 v2.mid': cueBytes([{ name: 'Harp', notes: [note(newer)] }]),
  });
  const { versions } = await plan({
    ...{ files, cues: ['cues'], instrument: 'harp.csv', middleC: 4 },
    headroom: { velocity: 8 },
  });
  expect(versions).toMatchObject([{ zones, bytes }]);
});
