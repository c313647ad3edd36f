import {
  joinedCells,
  layersTogether,
  octaveCells,
  type Alike,
} from '../../../overview/joined-cells.ts';
import type { Overview } from '../../../overview/overview.ts';
import type { OverviewInstrument } from '../../../overview/overview-instrument.ts';
import type { OverviewRow } from '../../../overview/overview-map.ts';
import { ReasonLists } from '../../../overview/reason-lists.ts';
import { eachInstrument } from './each-instrument.ts';

const eachRow = (
  overview: Overview,
  change: (cells: OverviewRow['cells'], reasons: ReasonLists) => OverviewRow['cells'],
): Overview => {
  const reasons = new ReasonLists(overview.reasons);
  const changed = eachInstrument(overview, (one) => ({
    ...one,
    articulations: one.articulations.map((articulation) => ({
      ...articulation,
      rows: articulation.rows.map((row) => ({ ...row, cells: change(row.cells, reasons) })),
    })),
  }));
  return { ...changed, reasons: reasons.all };
};

/** Cells beside each other that are alike as one. */
export const withJoined = (overview: Overview, isAlike: Alike): Overview =>
  eachRow(overview, (cells, reasons) => joinedCells(cells, isAlike, reasons));

/** A cell for each octave. */
export const byOctave = (overview: Overview): Overview => eachRow(overview, octaveCells);

/** The layers of an articulation as one row. */
export const layersAsOne = (overview: Overview): Overview => {
  const reasons = new ReasonLists(overview.reasons);
  const changed = eachInstrument(overview, (one) => ({
    ...one,
    articulations: one.articulations.map((articulation) => {
      const { rows } = articulation;
      const [first] = rows;
      if (first === undefined || rows.length === 1) return articulation;
      const row: OverviewRow = {
        velocity: [
          Math.min(...rows.map(({ velocity }) => velocity[0])),
          Math.max(...rows.map(({ velocity }) => velocity[1])),
        ],
        controllers: [],
        event: first.event,
        zones: rows.reduce((sum, { zones }) => sum + zones, 0),
        zonesKept: rows.reduce((sum, { zonesKept }) => sum + zonesKept, 0),
        cells: layersTogether(
          rows.map(({ cells }) => cells),
          reasons,
        ),
      };
      return { ...articulation, rows: [row] };
    }),
  }));
  return { ...changed, reasons: reasons.all };
};

/** An instrument without rows and witnesses. */
export const withoutMap = (one: OverviewInstrument): OverviewInstrument => {
  return {
    ...one,
    articulations: one.articulations.map((articulation) => ({ ...articulation, rows: [] })),
    witnesses: [],
  };
};
