import type { Instrument } from '../instruments/instrument.ts';
import type { Player } from '../template/player.ts';
import { realBytes } from './sample-load.ts';
import type { ZoneMask } from './zone-mask.ts';

/** An instrument laid out for fast sums: memory is asked for once for every set of doubts. */
interface Layout {
  /** The samples of zone z are `samples` from `from[z]` up to `from[z + 1]`. */
  readonly from: Uint32Array;
  readonly samples: Uint32Array;
  /** Bytes of each sample by the player. */
  readonly loads: Float64Array;
}

const layouts = new WeakMap<Instrument, WeakMap<Player, Layout>>();

const layoutOf = (instrument: Instrument, player: Player): Layout => {
  let byPlayer = layouts.get(instrument);
  if (byPlayer === undefined) layouts.set(instrument, (byPlayer = new WeakMap<Player, Layout>()));
  let layout = byPlayer.get(player);
  if (layout === undefined) byPlayer.set(player, (layout = layOut(instrument, player)));
  return layout;
};

const layOut = ({ zones, samples }: Instrument, player: Player): Layout => {
  const from = new Uint32Array(zones.length + 1);
  zones.forEach((zone, z) => (from[z + 1] = from[z]! + zone.samples.length));
  const inOrder = new Uint32Array(from[zones.length]!);
  zones.forEach((zone, z) => inOrder.set(zone.samples, from[z]));
  return {
    from,
    samples: inOrder,
    loads: Float64Array.from(samples, (sample) => realBytes(sample, player)),
  };
};

/** Bytes of each sample of an instrument by the player, in the order of its samples. */
export const sampleLoads = (instrument: Instrument, player: Player): Float64Array =>
  layoutOf(instrument, player).loads;

/** What zones come to. */
export interface ZoneLoad {
  /** How many zones are loaded. */
  readonly zones: number;
  /** Bytes of their samples, each counted once. */
  readonly samples: number;
}

/** Marks for the samples of an instrument, none set. */
export const noSamples = ({ samples }: Instrument): Uint8Array => new Uint8Array(samples.length);

/**
 * The zones of a mask and the bytes of their samples.
 *
 * @param seen one byte per sample: those marked cost nothing more, those that cost are marked
 */
export const zoneLoad = (
  instrument: Instrument,
  player: Player,
  mask: ZoneMask,
  seen: Uint8Array = noSamples(instrument),
): ZoneLoad => {
  const { from, samples, loads } = layoutOf(instrument, player);
  let zones = 0;
  let bytes = 0;
  for (let z = 0; z + 1 < from.length; z++) {
    if (mask[z] !== 1) continue;
    zones++;
    for (let i = from[z]!; i < from[z + 1]!; i++) {
      const sample = samples[i]!;
      if (seen[sample] === 1) continue;
      seen[sample] = 1;
      bytes += loads[sample]!;
    }
  }
  return { zones, samples: bytes };
};
