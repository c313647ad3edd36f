import { test } from 'vitest';
import { engineIsOracle } from './oracle-property.ts';
import { runs } from '../runs.ts';

/**
 * The oracle is a naive player written from the facts by someone who had not seen the engine: every
 * zone against every event. Its zones, its doubt sets and its voices must be the engine's. With other
 * seeds and more runs: `npm run prove`.
 */
test('reaches exactly the zones, doubts and voices of the naive player', { timeout: 0 }, () =>
  engineIsOracle(20261125, runs(300, 150)),
);
