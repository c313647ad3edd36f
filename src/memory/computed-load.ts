import type { Instrument } from '../instruments/instrument.ts';
import type { Player } from '../template/player.ts';
import type { Line } from './calibration.ts';
import type { LoadedCopies } from './loaded.ts';
import { noSamples, zoneLoad } from './zone-load.ts';
import type { ZoneMask } from './zone-mask.ts';

/** Copies as computed, before any calibration. */
export interface ComputedLoad {
  /** Copies with at least one zone; the others are not loaded. */
  readonly copies: number;
  /** Bytes that each copy has for itself, added up: per copy and per zone. */
  readonly own: number;
  /** Bytes of samples: once where the player shares them, in each copy where it does not. */
  readonly samples: number;
}

/** @param seen marks for samples that copies share, to be set; undefined: each copy holds its own */
export const computedLoad = (
  instrument: Instrument,
  player: Player,
  copies: readonly LoadedCopies[],
  seen: Uint8Array | undefined = player.shares === 'machine' ? noSamples(instrument) : undefined,
): ComputedLoad => {
  const sum = { copies: 0, own: 0, samples: 0 };
  for (const { zones: mask, count } of copies) {
    const { zones, samples } = zoneLoad(instrument, player, mask, seen);
    if (zones === 0) continue;
    sum.copies += count;
    sum.own += count * (player.perCopy + player.perZone * zones);
    sum.samples += seen === undefined ? count * samples : samples;
  }
  return sum;
};

/** X(Z): what one copy takes with these zones; 0 with none, as it is not loaded then. */
export const computedCopy = (instrument: Instrument, player: Player, zones: ZoneMask): number => {
  const { own, samples } = computedLoad(instrument, player, [{ zones, count: 1 }]);
  return own + samples;
};

/** What copies have for themselves, by a line. */
export const ownOnLine = ({ fixed, factor }: Line, { copies, own }: ComputedLoad): number =>
  copies * fixed + factor * own;
