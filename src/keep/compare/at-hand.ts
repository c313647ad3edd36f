import { isOneDefinition } from '../keep-file/one-definition.ts';
import type { Instrument } from '../../instruments/instrument.ts';
import type { Calibration } from '../../memory/calibration.ts';
import type { LoadedInstrument } from '../../memory/loaded.ts';
import type { Player } from '../../template/player.ts';
import type { InstrumentPair, Side } from './copy-pairs.ts';
import { planOf } from './sample-count.ts';

/** An instrument that is there to be looked at, with all that decides what it takes. */
export interface AtHand {
  readonly instrument: Instrument;
  readonly player: Player;
  readonly calibration: Calibration;
}

/** The instrument at hand if it is the one that the keep file speaks of, else null. */
export const handOf = (
  pair: InstrumentPair,
  side: Side,
  atHand: ReadonlyMap<string, AtHand>,
): AtHand | null => {
  const found = atHand.get(pair.id);
  const planned = planOf(pair, side);
  if (found === undefined || planned === null) return null;
  return isOneDefinition(found.instrument, planned) ? found : null;
};

/** An instrument as it lies in memory with what one of the files loads, or with what stays. */
export const loadedAs = (
  { instrument, player, calibration }: AtHand,
  { copies }: InstrumentPair,
  side: Side,
): LoadedInstrument => ({
  instrument,
  player,
  calibration,
  copies: copies.map((copy) => {
    const { zones, count } = copy[side];
    return {
      zones: Uint8Array.from(instrument.zones, ({ id }) => Number(zones.has(id))),
      count: Math.max(1, count),
    };
  }),
});
