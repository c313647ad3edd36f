import { fold } from '../notation/fold.ts';
import type { Articulation, Instrument, Sample } from './instrument.ts';

/** What is left of a list, and where each item has gone; -1: nowhere. */
const keep = <Item>(
  items: readonly Item[],
  stays: (item: Item, index: number) => boolean,
): { readonly left: readonly Item[]; readonly to: Int32Array } => {
  const to = new Int32Array(items.length).fill(-1);
  const left = items.filter((item, i) => {
    if (!stays(item, i)) return false;
    to[i] = 1;
    return true;
  });
  let next = 0;
  for (const [i, stayed] of to.entries()) {
    if (stayed < 0) continue;
    to[i] = next;
    next += 1;
  }
  return { left, to };
};

const articulationOf = (one: Articulation, to: Int32Array): Articulation => ({
  ...one,
  layers: one.layers.flatMap((layer) => {
    const zones = layer.zones.map((zone) => to[zone]!).filter((zone) => zone >= 0);
    return zones.length === 0 ? [] : [{ ...layer, zones }];
  }),
});

const sampleOf = (sample: Sample, to: Int32Array): Sample => {
  if (sample.partner === null) return sample;
  const partner = to[sample.partner]!;
  return { ...sample, partner: partner < 0 ? null : partner };
};

/**
 * How much more of a display each zone is, now that others share it no longer: what was read is what
 * the microphones take that are loaded.
 */
const sharesOf = ({ articulations, zones }: Instrument, to: Int32Array): readonly number[] => {
  const shares = zones.map(() => 1);
  for (const { layers } of articulations) {
    const own = layers.flatMap((layer) => layer.zones);
    const left = own.filter((zone) => to[zone]! >= 0);
    for (const zone of left) shares[zone] = own.length / left.length;
  }
  return shares;
};

/**
 * An instrument with only some of its microphones. Zones that name none stay; articulations keep their
 * numbers, and zones the ids that their source gave them.
 *
 * @param names compared folded; others than the zones have are passed over
 * @returns the instrument itself where all its zones stay; its digest is in any case the definition's
 */
export const withMicrophones = (instrument: Instrument, names: readonly string[]): Instrument => {
  const wanted = new Set(names.map(fold));
  const { program } = instrument;
  const zones = keep(
    instrument.zones,
    ({ microphone }) => microphone === null || wanted.has(fold(microphone)),
  );
  if (zones.left.length === instrument.zones.length) return instrument;
  const used = new Set(zones.left.flatMap((zone) => zone.samples));
  const samples = keep(instrument.samples, (_, i) => used.has(i));
  const shares = sharesOf(instrument, zones.to);
  const shareOf = new Map(
    instrument.zones.flatMap((zone, i) =>
      zone.samples.map((sample) => [instrument.samples[sample]!, shares[i]!] as const),
    ),
  );
  const isLeft = program.starts.map(({ zone }) => zones.to[zone]! >= 0);
  return {
    ...instrument,
    zones: zones.left.map((zone) => ({
      ...zone,
      samples: zone.samples.map((sample) => samples.to[sample]!),
    })),
    samples: samples.left.map((sample) => {
      const share = sample.asLoaded === true ? shareOf.get(sample)! : 1;
      return sampleOf({ ...sample, frames: Math.ceil(sample.frames * share) }, samples.to);
    }),
    articulations: instrument.articulations.map((one) => articulationOf(one, zones.to)),
    program: {
      ...program,
      zones: zones.left.length,
      starts: program.starts.flatMap((start, i) =>
        isLeft[i] === true ? [{ ...start, zone: zones.to[start.zone]! }] : [],
      ),
    },
    presetZones: instrument.presetZones.filter((_, i) => isLeft[i]),
  };
};
