import type { Instrument } from '../instruments/instrument.ts';
import type { Player } from '../template/player.ts';
import type { Calibration } from './calibration.ts';
import type { ZoneMask } from './zone-mask.ts';

/** Copies of an instrument that have the same zones loaded. */
export interface LoadedCopies {
  readonly zones: ZoneMask;
  /** How many there are; at least 1. */
  readonly count: number;
}

/**
 * An instrument as it lies in a machine. Where the player shares samples over the machine there is one
 * entry, the zones that any copy keeps: every copy loads the same smaller instrument. Where it does
 * not, each copy has its own zones. A copy without a zone is not loaded and takes nothing.
 */
export interface LoadedInstrument {
  readonly instrument: Instrument;
  readonly player: Player;
  readonly calibration: Calibration;
  readonly copies: readonly LoadedCopies[];
}
