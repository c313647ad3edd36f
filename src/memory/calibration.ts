import type { ZoneMask } from './zone-mask.ts';

/**
 * What a player's display showed, fitted: shown = fixed + factor x computed, for one copy (design,
 * section 7).
 */
export type Calibration =
  | { readonly basis: 'computed' }
  | {
      readonly basis: 'fitted';
      /** How many readings there were. */
      readonly readings: number;
      /** The likely line first; a figure lies between the lowest and the highest of all. */
      readonly lines: readonly [Line, ...Line[]];
      /** The worst difference between a reading and the likely line, in bytes; not rounded. */
      readonly residual: number;
      /** What was read, and with which zones loaded: such a state needs no line. */
      readonly states: readonly { readonly zones: ZoneMask; readonly bytes: number }[];
    };

export interface Line {
  /** Bytes that a copy takes beyond what is computed. */
  readonly fixed: number;
  /** What a computed byte really takes. */
  readonly factor: number;
}

export const computed: Calibration = { basis: 'computed' };

/** A calibration as lines: what is computed is the line of no fixed part and factor 1. */
export const fitOf = (
  calibration: Calibration,
): Pick<Extract<Calibration, { basis: 'fitted' }>, 'lines' | 'residual' | 'states'> =>
  calibration.basis === 'fitted' ? calibration : asComputed;

const asComputed = { lines: [{ fixed: 0, factor: 1 }], residual: 0, states: [] } as const;
