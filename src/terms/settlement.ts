import type { DoubtName } from './doubt.ts';

/** How a doubt was answered: as the plain reading, or by accepting what it costs. */
export type Settlement = 'plain' | 'accept';

/** Answered doubts. `damage` is never among them: it is accepted cue by cue. */
export type Settlements = Readonly<Partial<Record<DoubtName, Settlement>>>;
