import { toRanges } from '../../terms/range.ts';
import type { Choice, Outline } from './outline.ts';
import type { PlacedArticulation } from './outline-zone.ts';

/**
 * The articulations with the keys they can be played on: any that is no key switch, where the outline
 * does not say.
 */
export const placeArticulations = ({ articulations }: Outline): readonly PlacedArticulation[] => {
  const switches = new Set(articulations.flatMap(({ choice }) => switchKeyOf(choice) ?? []));
  const others = toRanges(everyKey.filter((key) => !switches.has(key)));
  return articulations.map((own, number) => ({
    number,
    own,
    keys: own.keys ?? others,
  }));
};

const everyKey: readonly number[] = Array.from({ length: 128 }, (_, key) => key);

const switchKeyOf = (choice: Choice): number | null =>
  choice.kind === 'switch' && choice.test.kind === 'key' ? choice.test.key : null;
