import type {
  OverviewArticulation,
  OverviewInstrument,
} from '../../overview/overview-instrument.ts';

/** What may be written on some copies of an instrument. */
export interface CopyPlaying {
  /** Names of the copies that are alike; null: it holds for all there are. */
  readonly copies: readonly string[] | null;
  readonly articulations: readonly OverviewArticulation[];
}

/** What may be written, told apart by copy only where copies differ; copies that are alike together. */
export const playingByCopy = ({
  copies,
  articulations,
}: Pick<OverviewInstrument, 'copies' | 'articulations'>): readonly CopyPlaying[] => {
  if (!articulations.some(differs)) return [{ copies: null, articulations }];
  const alike = new Map<string, { names: string[]; articulations: OverviewArticulation[] }>();
  copies.forEach(({ name }, copy) => {
    const own = articulations.flatMap((one) => ofCopy(one, copy));
    const text = JSON.stringify(own.map((one) => [one.name, one.playable]));
    const known = alike.get(text);
    if (known === undefined) alike.set(text, { names: [name], articulations: own });
    else known.names.push(name);
  });
  return [...alike.values()].map((one) => ({
    copies: one.names,
    articulations: one.articulations,
  }));
};

const differs = ({ copies }: OverviewArticulation): boolean =>
  new Set(copies.map(({ playable }) => JSON.stringify(playable))).size > 1;

/** An articulation as one copy has it; nothing where it is not asked of that copy. */
const ofCopy = (
  articulation: OverviewArticulation,
  copy: number,
): readonly OverviewArticulation[] => {
  if (articulation.copies.length === 0) return [articulation];
  const own = articulation.copies.find((one) => one.copy === copy);
  return own === undefined ? [] : [{ ...articulation, playable: own.playable }];
};
