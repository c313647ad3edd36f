import { findArticulation } from '../../instruments/find-articulation.ts';
import type { Instrument } from '../../instruments/instrument.ts';
import type { KeyMap } from '../key-map/key-map.ts';
import { zonedKeyMap } from '../key-map/make-key-map.ts';
import type { PlanInstrument } from '../plan.ts';
import type { WhyAsked } from './why.ts';

/**
 * The key map of an instrument, reduced to the rows in which a zone stands that was asked for, and to
 * the articulation if one was named.
 *
 * @param zones the numbers by which the source knows them
 */
export const whyMap = (
  instrument: Instrument,
  own: PlanInstrument,
  zones: ReadonlySet<number>,
  { articulation }: Pick<WhyAsked, 'articulation'>,
): KeyMap => {
  const { keys, articulations } = zonedKeyMap(instrument, own);
  const named =
    articulation === null ? null : findArticulation(own.articulations, articulation).indices;
  return {
    keys,
    articulations: articulations.flatMap((one) => {
      if (named?.includes(one.articulation) === false) return [];
      const rows = one.rows
        .filter(({ members }) => members.some(({ zone }) => zones.has(instrument.zones[zone]!.id)))
        .map(({ velocity, controllers, event, zones: count, zonesKept, cells }) => ({
          velocity,
          controllers,
          event,
          zones: count,
          zonesKept,
          cells,
        }));
      return rows.length === 0 ? [] : [{ ...one, rows }];
    }),
  };
};
