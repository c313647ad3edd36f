import { expect, test } from 'vitest';
import { droppedIsNeverHeard } from './unheard.ts';

test('what is dropped of random SoundFonts is never heard, what is played is', async () => {
  const { dropped, played } = await droppedIsNeverHeard({ seed: 99, numRuns: 800 });
  console.log(dropped, played);
  expect(dropped).toBeGreaterThan(10);
  expect(played).toBeGreaterThan(10);
}, 120_000);
