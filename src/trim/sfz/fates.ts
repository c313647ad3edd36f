import type { RegionSample } from '../../instruments/sfz/samples/region-samples.ts';
import type { SfzStructure } from '../../instruments/sfz/structure/regions.ts';
import type { SfzDocument } from '../../instruments/sfz/text/document.ts';
import type { TrimSet } from '../trim-set.ts';

/** What becomes of a header and its opcodes. */
export type Fate = 'stays' | 'goes' | 'silenced';

export interface Fates {
  /** One for each header of the document. */
  readonly ofHeader: readonly Fate[];
  /** Old numbers of the regions that stay, ascending: their new numbers are their places here. */
  readonly kept: readonly number[];
  /** Numbers of those that go. */
  readonly gone: readonly number[];
}

/**
 * Regions that are not kept go; those that only stop others lose what they play. An embedded sample
 * that only such regions play goes with them.
 */
export const fatesOf = (
  { headers }: SfzDocument,
  { regions }: SfzStructure,
  samples: readonly RegionSample[],
  keep: TrimSet,
): Fates => {
  const spare = spareNames(samples, keep);
  const kept: number[] = [];
  const gone: number[] = [];
  let number = -1;
  const ofHeader = headers.map(({ name, opcodes }): Fate => {
    if (name === 'sample') {
      const named = opcodes.findLast((one) => one.name === 'name')?.value ?? '';
      return spare.has(named) ? 'goes' : 'stays';
    }
    if (name !== 'region') return 'stays';
    number += 1;
    const stays = keep.loaded.has(number) || keep.silent.has(number);
    (stays ? kept : gone).push(number);
    if (!stays) return 'goes';
    const { kind } = samples[number]!;
    const sounds = kind !== 'silence' && kind !== 'none';
    return sounds && !keep.loaded.has(number) ? 'silenced' : 'stays';
  });
  if (kept.length + gone.length !== regions.length) throw new Error('regions and headers differ');
  return { ofHeader, kept, gone };
};

/** Embedded samples that some region plays, and none that stays with its sample. */
const spareNames = (samples: readonly RegionSample[], { loaded }: TrimSet): ReadonlySet<string> => {
  const spare = new Set<string>();
  for (const one of samples) if (one.kind === 'embedded') spare.add(one.name);
  samples.forEach((one, number) => {
    if (one.kind === 'embedded' && loaded.has(number)) spare.delete(one.name);
  });
  return spare;
};
