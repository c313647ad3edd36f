import type { Instrument } from '../instruments/instrument.ts';
import { programOf } from '../instruments/program.ts';
import { partnersOf } from '../keep/keep-set.ts';
import type { PlanInstrument } from '../keep/plan.ts';
import type { TrimSet } from './trim-set.ts';

/**
 * What stays of an instrument when its files are rewritten. That does not depend on what its player can
 * unload: zones that stay only because their player lets go of whole units go, and with them stereo
 * halves that only such zones bring along.
 */
export const trimSetOf = (planned: PlanInstrument, instrument: Instrument): TrimSet => {
  const { kept, presetZones } = planned;
  const loaded = new Set<number>();
  const silent = new Set<number>();
  const halves = new Set<number>();
  for (const { zone, reasons } of kept) {
    if (reasons.includes('mutes')) silent.add(zone);
    else if (reasons.includes('linked')) halves.add(zone);
    else if (!reasons.includes('grain')) loaded.add(zone);
  }
  addHalves(instrument, loaded, halves);
  return {
    loaded,
    silent,
    presetZones: new Set(presetZones),
    programs: instrument.playedAs === 'bank' ? chosenPrograms(planned) : new Set(),
  };
};

/** The other half of what stays, and of that half again: chains of links are longer than two. */
const addHalves = (
  instrument: Instrument,
  loaded: Set<number>,
  halves: ReadonlySet<number>,
): void => {
  const { zones } = instrument;
  const index = new Map(zones.map(({ id }, zone) => [id, zone]));
  const partners = partnersOf(instrument);
  const waiting = [...loaded];
  for (let zone = waiting.pop(); zone !== undefined; zone = waiting.pop()) {
    for (const other of partners.get(index.get(zone)!) ?? []) {
      const { id } = zones[other]!;
      if (!halves.has(id) || loaded.has(id)) continue;
      loaded.add(id);
      waiting.push(id);
    }
  }
};

/** Programs that cues choose, whatever the bank: readings differ in banks only. 0 is set at power-on. */
const chosenPrograms = ({ copies }: PlanInstrument): ReadonlySet<number> =>
  new Set([
    0,
    ...copies.flatMap(({ chosen }) => chosen.flatMap(({ values }) => values.map(programOf))),
  ]);
