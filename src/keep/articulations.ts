import type { Instrument } from '../instruments/instrument.ts';
import { bytesOf } from '../memory/sample-memory.ts';
import { toRanges } from '../terms/range.ts';
import type { PlanArticulation } from './plan.ts';
import type { Tally } from './tally.ts';

/**
 * What is played and kept of each articulation. A zone or sample that several articulations use
 * counts in each; the instrument's totals count it once.
 *
 * @param startKept per start of the program, whether it stays
 */
export const planArticulations = (
  { articulations, program, samples, zones }: Instrument,
  tally: Tally,
  startKept: readonly boolean[],
): readonly PlanArticulation[] => {
  const kept = articulations.map(() => new Set<number>());
  const all = articulations.map(() => new Set<number>());
  program.starts.forEach(({ articulation, zone }, i) => {
    all[articulation]!.add(zone);
    if (startKept[i]!) kept[articulation]!.add(zone);
  });
  const bytes = (some: ReadonlySet<number>): number =>
    bytesOf(
      samples,
      [...some].flatMap((zone) => zones[zone]!.samples),
    );
  return articulations.map(({ name, switch: selector, layers }, i) => {
    const { notes, keys, velocities } = tally.articulations[i]!;
    return {
      name,
      switch: selector,
      notes,
      keys: toRanges(keys),
      velocities,
      layers: layers.map(({ velocity, controllers, zones: own }) => ({
        velocity,
        controllers,
        zones: own.length,
        zonesKept: own.filter((zone) => kept[i]!.has(zone)).length,
      })),
      zones: all[i]!.size,
      zonesKept: kept[i]!.size,
      bytes: { full: bytes(all[i]!), kept: bytes(kept[i]!) },
    };
  });
};
