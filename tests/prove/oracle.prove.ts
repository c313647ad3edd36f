import { test } from 'vitest';
import { engineIsOracle } from '../playback/oracle-property.ts';
import { onlyPart, proveSeed } from './seeded.ts';

/** As in the tests, with the seed of the proofs and at full size thousands of runs. */
test('the engine reaches what the naive player does', { timeout: 0 }, () =>
  engineIsOracle(proveSeed, onlyPart ? 300 : 3000),
);
