import { expect, test } from 'vitest';
import { droppedIsNeverHeard } from './unheard.ts';

/** The judge is FluidSynth (in WebAssembly, through js-synthesizer). */
test('what is dropped of random SoundFonts is never heard, what is played is', async () => {
  const { dropped, played } = await droppedIsNeverHeard({ seed: 64, numRuns: 40 });
  expect(dropped).toBeGreaterThan(20);
  expect(played).toBeGreaterThan(40);
});
