import type { Place } from '../terms/finding.ts';

/** What a player's display showed with a part of an instrument loaded in one copy. */
export interface Reading {
  /** `empty`: no zone; `full`: all zones; else the name of the only articulation loaded. */
  readonly of: string;
  readonly bytes: number;
  readonly at: Place;
}

/** A reading with the file it stands in. */
export interface FileReading extends Reading {
  readonly file: string | null;
}
