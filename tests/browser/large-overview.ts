import type { Overview } from '../../src/overview/overview.ts';

/** A template and a reel as large as they come. */
export const largeSize = { instruments: 150, cues: 60 } as const;

/**
 * The overview of a small rig, its instruments and cues repeated under new names: as large as a large
 * one, with the maps that a small one has. Witnesses are as few as `report` leaves of so many.
 */
export const largeOf = (overview: Overview): Overview => {
  const [ids, reel] = [overview.instruments.length, overview.cues.length];
  const instruments = Array.from({ length: largeSize.instruments }, (_, i) => {
    const own = overview.instruments[i % ids]!;
    return {
      ...own,
      id: `${own.id}-${String(Math.floor(i / ids) + 1)}`,
      witnesses: [],
      articulations: own.articulations.map((articulation) => ({
        ...articulation,
        rows: articulation.rows.map((row) => ({
          ...row,
          cells: row.cells.map(
            ([lo, hi, state, zones, kept, reasons]) =>
              [lo, hi, state, zones, kept, reasons, 0, 0] as const,
          ),
        })),
      })),
    };
  });
  const cues = Array.from({ length: largeSize.cues }, (_, i) => {
    const own = overview.cues[i % reel]!;
    return {
      ...own,
      id: `${String(Math.floor(i / reel) + 1)}-${own.id}`,
      needs: instruments.flatMap((_, index) =>
        own.needs
          .filter(([instrument]) => instrument === index % ids)
          .map(([, bytes]) => [index, bytes] as const),
      ),
    };
  });
  let number = 0;
  const worklist = overview.worklist.map((list) => ({
    ...list,
    actions: instruments.flatMap(({ id }, i) =>
      list.actions
        .filter(({ instrument }) => instrument === overview.instruments[i % ids]!.id)
        .map((action) => ({ ...action, number: ++number, instrument: id })),
    ),
  }));
  return { ...overview, title: 'A large one', instruments, cues, worklist, witnessesPerCell: 0 };
};
