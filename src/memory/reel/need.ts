import type { Instrument } from '../../instruments/instrument.ts';
import type { Player } from '../../template/player.ts';
import type { Calibration } from '../calibration.ts';
import type { LoadedInstrument } from '../loaded.ts';
import type { ZoneMask } from '../zone-mask.ts';

/**
 * What some cues need of one instrument: where its copies share, the zones that all of them load and
 * the copies that play; else the zones of each copy. Copies have names, which are theirs in all cues.
 */
export type Need =
  | {
      readonly kind: 'shared';
      readonly zones: ZoneMask;
      readonly copies: ReadonlySet<string>;
    }
  | { readonly kind: 'own'; readonly copies: ReadonlyMap<string, ZoneMask> };

/** An instrument with all that decides what it takes, but for what is needed of it. */
export interface Loadable {
  readonly instrument: Instrument;
  readonly player: Player;
  readonly calibration: Calibration;
}

/** Nothing is needed of an instrument. */
export const noNeed = ({ instrument, player }: Loadable): Need =>
  player.shares === 'machine'
    ? { kind: 'shared', zones: new Uint8Array(instrument.zones.length), copies: new Set() }
    : { kind: 'own', copies: new Map() };

/** What two needs come to. Both are of one instrument. */
export const joinNeeds = (a: Need, b: Need): Need => {
  if (a.kind === 'shared' && b.kind === 'shared') {
    return {
      kind: 'shared',
      zones: joinMasks(a.zones, b.zones),
      copies: new Set([...a.copies, ...b.copies]),
    };
  }
  if (a.kind !== 'own' || b.kind !== 'own') throw new TypeError('needs of two instruments');
  const copies = new Map(a.copies);
  for (const [name, zones] of b.copies) {
    const own = copies.get(name);
    copies.set(name, own === undefined ? zones : joinMasks(own, zones));
  }
  return { kind: 'own', copies };
};

const joinMasks = (a: ZoneMask, b: ZoneMask): ZoneMask => a.map((one, zone) => one | b[zone]!);

/** The instrument as it lies in its machine when that is loaded which is needed, and no more. */
export const loadedFor = (
  { instrument, player, calibration }: Loadable,
  need: Need,
): LoadedInstrument => ({
  instrument,
  player,
  calibration,
  copies:
    need.kind === 'shared'
      ? // What no copy plays may be kept regardless: in one.
        [{ zones: need.zones, count: Math.max(1, need.copies.size) }]
      : [...need.copies.values()].map((zones) => ({ zones, count: 1 })),
});
