import type { Part } from '../midi/parts.ts';
import type { Transform } from './route.ts';

/** The parts of one cue file, each with exactly one outcome. */
export interface Routed {
  readonly copies: readonly RoutedCopy[];
  /** Parts with notes that no rule takes. */
  readonly unmapped: readonly Part[];
  /** Ids of instruments that an unreadable part of the file may have played, in template order. */
  readonly tainted: readonly string[];
}

/** One loaded instance of an instrument, as one cue file drives it. */
export interface RoutedCopy {
  /** Names the copy across the cues of a reel; with the instrument it is unique in its file. */
  readonly name: string;
  /** Instrument id. */
  readonly instrument: string;
  /** The articulation that the route names, as the instrument spells it; null: switches decide. */
  readonly articulation: string | null;
  readonly printed: boolean;
  /** In track order, then by port. */
  readonly sources: readonly RoutedSource[];
}

/** What a copy hears of a track. */
export interface RoutedSource {
  /** Index into the score's tracks. */
  readonly track: number;
  /** From 0. */
  readonly port: number;
  /** Bit per channel, 1 << 0 for the first. */
  readonly channels: number;
  readonly transform: Transform;
}
