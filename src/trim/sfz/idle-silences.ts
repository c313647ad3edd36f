import { compileSfz } from '../../instruments/sfz/program/compile.ts';
import { namedRegions } from '../../instruments/sfz/program/named-region.ts';
import { structureOf } from '../../instruments/sfz/structure/regions.ts';
import type { SfzDocument } from '../../instruments/sfz/text/document.ts';

/**
 * Silent regions that no note starts any more: those they stopped are gone, or the releases that asked
 * for them.
 *
 * @param made the smaller instrument
 * @param silent numbers in it of the regions that play nothing
 */
export const idleSilences = (made: SfzDocument, silent: readonly number[]): readonly number[] => {
  if (silent.length === 0) return [];
  const structure = structureOf(made);
  const regions = namedRegions(structure);
  // Whom a silent region stops or serves is told by opcodes alone: what the others play does not matter.
  const { starts } = compileSfz(
    regions,
    structure,
    regions.map(() => ({ kind: 'silence', sample: -1, header: null })),
    regions.map(() => 0),
  );
  const started = new Set(starts.map(({ zone }) => zone));
  return silent.filter((number) => !started.has(number));
};
