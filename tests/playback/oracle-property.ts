import fc from 'fast-check';
import { expect } from 'vitest';
import { randomBank } from '../oracle/random-bank.ts';
import { randomEvents } from '../oracle/random-events.ts';
import { engineReached, oracleReached } from './against-oracle.ts';
import { engine } from './engine-under-test.ts';

/** Random banks and streams on which engine and oracle must come to the same. */
export const engineIsOracle = (seed: number, numRuns: number): Promise<void> =>
  fc.assert(
    fc.asyncProperty(randomBank(), randomEvents(), async (bank, events) => {
      expect(await engineReached(engine, bank, events)).toEqual(oracleReached(bank, events));
    }),
    { seed, numRuns },
  );
