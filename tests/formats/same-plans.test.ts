import { test } from 'vitest';
import { sfzIsTableWhenSettled, sfzIsTableWithDoubts, threePlansAreOne } from './same-plans.ts';

test('three', () => threePlansAreOne({ seed: 61, numRuns: 300 }));
test('exact', () => sfzIsTableWithDoubts({ seed: 62, numRuns: 300 }));
test('settled', () => sfzIsTableWhenSettled({ seed: 63, numRuns: 300 }));
