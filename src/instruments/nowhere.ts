import type { Range } from '../terms/range.ts';

/** Holds no key: of a start that can't happen. */
export const nowhere: Range = [Infinity, -Infinity];
