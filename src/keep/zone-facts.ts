import type { Instrument } from '../instruments/instrument.ts';
import { sampleLoads } from '../memory/zone-load.ts';
import type { Player } from '../template/player.ts';

/** What a keep file says of any zone, kept or not. */
export interface ZoneFacts {
  readonly zone: number;
  readonly key: string | null;
  readonly samples: readonly string[];
  readonly articulations: readonly number[];
  readonly bytes: number;
}

const known = new WeakMap<Instrument, readonly (readonly number[])[]>();

/** Per zone the articulations that start it, ascending. */
const articulationsOf = (instrument: Instrument): readonly (readonly number[])[] => {
  let found = known.get(instrument);
  if (found === undefined) {
    const sets = instrument.zones.map(() => new Set<number>());
    for (const { zone, articulation } of instrument.program.starts) sets[zone]!.add(articulation);
    found = sets.map((set) => [...set].sort((a, b) => a - b));
    known.set(instrument, found);
  }
  return found;
};

/**
 * Describes a zone of an instrument.
 *
 * @param zone index into {@link Instrument.zones}
 * @param isMute it stays without its samples
 */
export const zoneFacts = (
  instrument: Instrument,
  player: Player,
  zone: number,
  isMute = false,
): ZoneFacts => {
  const { id, key, samples: all } = instrument.zones[zone]!;
  const samples = isMute ? [] : all;
  const loads = sampleLoads(instrument, player);
  return {
    zone: id,
    key,
    samples: samples.map((sample) => instrument.samples[sample]!.name),
    articulations: articulationsOf(instrument)[zone]!,
    bytes: Math.round([...new Set(samples)].reduce((sum, sample) => sum + loads[sample]!, 0)),
  };
};
