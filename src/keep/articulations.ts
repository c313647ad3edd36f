import type { Instrument } from '../instruments/instrument.ts';
import type { LoadedInstrument } from '../memory/loaded.ts';
import { partMemory } from '../memory/loaded-memory.ts';
import type { ZoneMask } from '../memory/zone-mask.ts';
import { toRanges } from '../terms/range.ts';
import type { PlanArticulation } from './plan.ts';
import type { Tally } from './tally.ts';

/** An instrument's memory before and after. */
export interface BeforeAndAfter {
  readonly full: LoadedInstrument;
  readonly kept: LoadedInstrument;
}

/**
 * What is played and kept of each articulation. A zone or sample that several articulations use
 * counts in each; the instrument's totals count it once.
 *
 * @param startKept per start of the program, 1 when it stays
 */
export const planArticulations = (
  { articulations, program, zones }: Instrument,
  tally: Tally,
  startKept: Uint8Array,
  memory: BeforeAndAfter,
): readonly PlanArticulation[] => {
  const all = articulations.map((): ZoneMask => new Uint8Array(zones.length));
  const kept = articulations.map((): ZoneMask => new Uint8Array(zones.length));
  program.starts.forEach(({ articulation, zone }, i) => {
    all[articulation]![zone] = 1;
    if (startKept[i] === 1) kept[articulation]![zone] = 1;
  });
  return articulations.map(({ name, switch: selector, layers }, i) => {
    const { notes, keys, velocities, controllers } = tally.articulations[i]!;
    return {
      name,
      switch: selector,
      notes,
      keys: toRanges(keys),
      velocities,
      controllers: [...controllers]
        .map(([number, range]) => ({ number, range }))
        .sort((a, b) => a.number - b.number),
      layers: layers.map(({ velocity, controllers, zones: own }) => ({
        velocity,
        controllers,
        // One that nothing starts is none of the articulation's zones.
        zones: own.filter((zone) => all[i]![zone] === 1).length,
        zonesKept: own.filter((zone) => kept[i]![zone] === 1).length,
      })),
      zones: count(all[i]!),
      zonesKept: count(kept[i]!),
      bytes: { full: partMemory(memory.full, all[i]!), kept: partMemory(memory.kept, kept[i]!) },
    };
  });
};

const count = (mask: ZoneMask): number => mask.reduce((sum, one) => sum + one, 0);
