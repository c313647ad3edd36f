import { expect, test } from 'vitest';
import {
  sfzIsTableWhenSettled,
  sfzIsTableWithDoubts,
  sfzIsTableWithFades,
  threePlansAreOne,
} from '../formats/same-plans.ts';
import { droppedIsNeverHeard } from '../formats/unheard.ts';
import { onlyPart, proveSeed } from './seeded.ts';

/** As in the tests, with the seed of the proofs and at full size thousands of runs. */
const runs = { seed: proveSeed, numRuns: onlyPart ? 200 : 3000 };

test.each([
  ['SFZ, SoundFont and zone table', threePlansAreOne],
  ['SFZ and zone table, every doubt', sfzIsTableWithDoubts],
  ['SFZ and zone table, fades', sfzIsTableWithFades],
  ['SFZ and zone table, engines settled', sfzIsTableWhenSettled],
])('%s give one plan', { timeout: 0 }, async (_, property) => {
  expect((await property(runs)).size).toBeGreaterThan(0);
});

test('what is dropped of random SoundFonts is never heard', { timeout: 0 }, async () => {
  // The memory of the one WebAssembly module is used up by some thousands of synthesisers.
  const numRuns = onlyPart ? 100 : 500;
  const { dropped, played } = await droppedIsNeverHeard({ seed: proveSeed, numRuns });
  console.log(`samples poisoned: ${String(dropped)} dropped, ${String(played)} played`);
  expect(dropped).toBeGreaterThan(numRuns / 2);
  expect(played).toBeGreaterThan(numRuns);
});
