import { brassTables } from './tables-brass.ts';
import { restTables } from './tables-rest.ts';
import { stringTables } from './tables-strings.ts';
import type { OrchestraTable } from './zone-rows.ts';

/**
 * The zone tables of the demo's orchestra, all invented. They carry sizes only: no sound goes with
 * them, and none is needed to make a plan.
 */
export const orchestraTables = (): readonly OrchestraTable[] => [
  ...stringTables(),
  ...brassTables(),
  ...restTables(),
];
