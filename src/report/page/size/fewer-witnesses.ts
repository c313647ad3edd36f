import type { Overview } from '../../../overview/overview.ts';
import type { CellWitness } from '../../../overview/overview-map.ts';
import { eachInstrument } from './each-instrument.ts';

/** Each cell with so many witnesses at the most; of joined ones those of the first. */
export const withWitnesses = (overview: Overview, most: number): Overview => {
  const changed = eachInstrument(overview, (one) => {
    const witnesses: CellWitness[] = [];
    const places = new Map<number, number>();
    const placeOf = (first: number): number => {
      const known = places.get(first);
      if (known !== undefined) return known;
      const place = witnesses.push(...one.witnesses.slice(first, first + most)) - most;
      places.set(first, place);
      return place;
    };
    const articulations = one.articulations.map((articulation) => ({
      ...articulation,
      rows: articulation.rows.map((row) => ({
        ...row,
        cells: row.cells.map(([lo, hi, state, zones, kept, reasons, first, count]) => {
          const left = Math.min(count, most);
          const place = left === 0 ? 0 : placeOf(first);
          return [lo, hi, state, zones, kept, reasons, place, left] as const;
        }),
      })),
    }));
    return { ...one, articulations, witnesses };
  });
  return {
    ...changed,
    tracks: most === 0 ? [] : overview.tracks,
    witnessesPerCell: Math.min(most, overview.witnessesPerCell),
  };
};
