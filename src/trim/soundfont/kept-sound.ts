import type { Hydra } from '../../instruments/soundfont/hydra.ts';
import { isRom } from '../../instruments/soundfont/samples.ts';
import { addressAmounts, addressOffsets, type AddressOffsets } from './address-offsets.ts';
import { merged, type Interval } from './intervals.ts';
import type { KeptBank } from './kept-bank.ts';
import { isPlayable } from './playable.ts';
import { sampleCover } from './sample-cover.ts';

/**
 * The stretches of the sound that stay. Samples that share points, or lie one against the other, fall
 * into one stretch, so that they share them still.
 *
 * @param points how many the sound of the bank has
 */
export const keptSound = (hydra: Hydra, bank: KeptBank, points: number): readonly Interval[] => {
  const offsets = offsetsBySample(hydra, bank, points);
  const inFile = bank.samples.filter((sample) => !isRom(hydra.samples[sample]!));
  return merged(
    inFile.map((sample) => sampleCover(hydra.samples[sample]!, offsets.get(sample) ?? [], points)),
  );
};

/**
 * How zones move the addresses of each sample, where they do. The global zone, and a first
 * zone whose sample can't be played, may add theirs; where synthesisers differ about that, both
 * readings count.
 */
const offsetsBySample = (
  { instrumentZones, samples }: Hydra,
  { instruments, sampleOf }: KeptBank,
  points: number,
): ReadonlyMap<number, readonly AddressOffsets[]> => {
  const bySample = new Map<number, AddressOffsets[]>();
  for (const { zones } of instruments) {
    const amounts = zones.flatMap((zone) =>
      zone.kind === 'own'
        ? [{ bag: zone.bag, own: addressAmounts(instrumentZones, zone.bag) }]
        : [],
    );
    const globals = amounts
      .filter(({ bag }, i) => {
        const sample = sampleOf.get(bag);
        return sample === undefined || (i === 0 && !isPlayable(samples[sample]!, points));
      })
      .map(({ own }) => own);
    for (const { bag, own } of amounts) {
      const sample = sampleOf.get(bag);
      if (sample === undefined) continue;
      const found = bySample.get(sample) ?? [];
      bySample.set(sample, found);
      for (const global of [new Map<number, number>(), ...globals]) {
        if (own.size + global.size > 0) found.push(addressOffsets(own, global));
      }
    }
  }
  return bySample;
};
