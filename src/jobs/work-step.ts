/** What a job does just now, for a person who waits. */
export interface WorkStep {
  readonly doing: 'loading' | 'playing' | 'working out';
  /** An instrument, a cue, or what is worked out. */
  readonly name: string;
  /** Which one it is, from 1, and how many there are; null where there is one alone. */
  readonly count: { readonly at: number; readonly of: number } | null;
}

/** Told before each step; the work goes on when what it gives back has settled. */
export type OnStep = (step: WorkStep) => void | Promise<void>;

/** Options of a job that takes its time. */
export interface Watched {
  readonly onStep?: OnStep | undefined;
}
