import fc from 'fast-check';
import { expect, test } from 'vitest';
import { randomBank } from '../oracle/random-bank.ts';
import { randomEvents } from '../oracle/random-events.ts';
import { engineReached, oracleReached } from './against-oracle.ts';
import { engine } from './engine-under-test.ts';

/** `npm run prove` asks for more. */
const runs = Number(process.env['KEEPSET_ORACLE_RUNS'] ?? 300);

/**
 * The oracle is a naive player written from the facts by someone who had not seen the engine: every
 * zone against every event. Its zones, its doubt sets and its voices must be the engine's.
 */
test(
  'reaches exactly the zones, doubts and voices of the naive player',
  { timeout: 0 },
  async () => {
    await fc.assert(
      fc.asyncProperty(randomBank(), randomEvents(), async (bank, events) => {
        expect(await engineReached(engine, bank, events)).toEqual(oracleReached(bank, events));
      }),
      { seed: 20261125, numRuns: runs },
    );
  },
);
