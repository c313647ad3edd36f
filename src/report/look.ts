import type { Colors } from './colors.ts';

/** How a report looks on its stream; the same for every table. */
export interface Look {
  readonly colors: Colors;
  /** Rules and dots in ASCII. Names from files stay as they are. */
  readonly ascii: boolean;
  /** Columns of the terminal; null: nothing is cut, for pipes and files. */
  readonly width: number | null;
  /** The octave that key 60 bears: 4 (C4) unless said otherwise. */
  readonly middleC?: number;
  /** Everything, however long it gets; else what a person reads first. */
  readonly details?: boolean;
  /** Structure is marked for a writer that lays it out by itself: `markdown/marks.ts`. */
  readonly marked?: boolean;
}

/** What stands for a part left out. */
export const dots = ({ ascii }: Look): string => (ascii ? '...' : '…');
