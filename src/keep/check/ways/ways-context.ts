import type { Instrument } from '../../../instruments/instrument.ts';
import type { CopyUsage, FileUsage } from '../../../playback/zone-usage.ts';
import type { DoubtSet } from '../../../terms/doubt.ts';

/** What check knows of one instrument when it looks for ways out. */
export interface WaysContext {
  readonly instrument: Instrument;
  /** Usage of the checked cue files that drive the instrument, printed copies left out. */
  readonly files: readonly FileUsage[];
  /** Choices of copies known from the keep file, to be learned beside those of `files`. */
  readonly learned: readonly Pick<CopyUsage, 'copy' | 'chosen'>[];
  /** Doubts settled as plain. */
  readonly excluded: DoubtSet;
  /** Whether a zone (index) stays with its samples, in a copy (by name). */
  readonly isLoaded: (copy: string, zone: number, start: number) => boolean;
  /** Whether it stays at all. */
  readonly isKept: (copy: string, zone: number) => boolean;
}
