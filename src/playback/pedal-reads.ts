import type { Program } from '../instruments/program.ts';
import { readsOf, type Reads } from './reads.ts';

const controlChange = 0xb;

/**
 * What a program reads, and its pedals: they do not decide what plays where nothing starts by being
 * released, but they decide for how long.
 */
export const readsWithPedals = (program: Program): Reads => {
  const reads = Uint8Array.from(readsOf(program));
  for (const { sustain, sostenuto } of program.holds.flatMap(({ pedals }) => pedals)) {
    for (const pedal of [sustain, sostenuto]) {
      if (pedal !== null) reads[controlChange * 128 + pedal.controller] = 1;
    }
  }
  return reads;
};
