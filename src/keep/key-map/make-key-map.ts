import type { Instrument } from '../../instruments/instrument.ts';
import type { Range } from '../../terms/range.ts';
import type { KeptZone, PlanInstrument } from '../plan.ts';
import type { KeyMap, KeyMapArticulation, KeyMapRow } from './key-map.ts';
import { openStarts } from './open-starts.ts';
import { reasonMask } from './reason-mask.ts';
import { rowCells, type JudgedZone } from './row-cells.ts';
import { zonedRows, type RowZone } from './row-zones.ts';

/** A key map that still knows its zones. */
export interface ZonedKeyMap extends KeyMap {
  readonly articulations: readonly ZonedArticulation[];
}

export interface ZonedArticulation extends KeyMapArticulation {
  readonly rows: readonly ZonedKeyMapRow[];
}

export interface ZonedKeyMapRow extends KeyMapRow {
  readonly members: readonly ZonedMember[];
}

export interface ZonedMember extends JudgedZone {
  /** What the plan says of it where it stays and can still be reached; null: it does not, or no plan. */
  readonly kept: KeptZone | null;
}

/**
 * The keys and layers of an instrument, and what a plan says of them.
 *
 * @param own the instrument in the plan; null: without one
 */
export const makeKeyMap = (instrument: Instrument, own: PlanInstrument | null): KeyMap => {
  const { keys, articulations } = zonedKeyMap(instrument, own);
  return {
    keys,
    articulations: articulations.map((one) => ({ ...one, rows: one.rows.map(withoutMembers) })),
  };
};

const withoutMembers = ({
  velocity,
  controllers,
  event,
  zones,
  zonesKept,
  cells,
}: ZonedKeyMapRow): KeyMapRow => ({ velocity, controllers, event, zones, zonesKept, cells });

/** The same with the zones of each row. */
export const zonedKeyMap = (instrument: Instrument, own: PlanInstrument | null): ZonedKeyMap => {
  const judge = judgeOf(instrument, own);
  const articulations = zonedRows(instrument).flatMap((rows, articulation) => {
    if (rows.length === 0) return [];
    const { name, switch: selector } = instrument.articulations[articulation]!;
    const made = rows.map(({ velocity, controllers, event, zones }): ZonedKeyMapRow => {
      const members = zones.map(judge);
      return {
        velocity,
        controllers,
        event,
        zones: zones.length,
        zonesKept: own === null ? null : members.filter(({ kept }) => kept !== null).length,
        cells: rowCells(instrument.program, members, own !== null),
        members,
      };
    });
    return [{ articulation, name, switch: selector, rows: made }];
  });
  return { keys: hull(articulations), articulations };
};

/**
 * Whether a zone of a row stays: it is kept, and in a bank one of the preset's ways to it is too.
 */
const judgeOf = (
  instrument: Instrument,
  own: PlanInstrument | null,
): ((zone: RowZone) => ZonedMember) => {
  const kept = new Map((own?.kept ?? []).map((zone) => [zone.zone, zone]));
  const isOpen = openStarts(instrument, own);
  return (one) => {
    const found = kept.get(instrument.zones[one.zone]!.id);
    const stays = found !== undefined && one.starts.some(isOpen) ? found : null;
    return { ...one, kept: stays, reasons: stays === null ? 0 : reasonMask(stays.reasons) };
  };
};

const hull = (articulations: readonly KeyMapArticulation[]): Range | null => {
  let [lo, hi] = [Infinity, -Infinity];
  for (const { rows } of articulations) {
    for (const { cells } of rows) {
      const [first, last] = [cells[0], cells.at(-1)];
      if (first === undefined || last === undefined) continue;
      lo = Math.min(lo, first.keys[0]);
      hi = Math.max(hi, last.keys[1]);
    }
  }
  return lo > hi ? null : [lo, hi];
};
