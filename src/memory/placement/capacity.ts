import { fitOf, type Line } from '../calibration.ts';
import { ownOnLine, type ComputedLoad } from '../computed-load.ts';
import type { LoadedInstrument } from '../loaded.ts';
import { sharedSamples } from '../shared-samples.ts';
import type { HighFigures } from './high-figures.ts';

/**
 * High figures as sums, for a linear program: never more than what `machineMemory` says, and the same
 * where nothing is shared. A machine takes `own` of each instrument on it, and of each pool the most
 * that one of its members on the machine takes.
 */
export interface Capacity {
  /** Bytes of each instrument; may be below 0. */
  readonly own: readonly number[];
  readonly pools: readonly Pool[];
}

/** Samples that several instruments have. */
export interface Pool {
  readonly members: readonly { readonly instrument: number; readonly bytes: number }[];
}

/** What a pool takes with all of its members. */
export const mostOf = ({ members }: Pool): number => Math.max(...members.map(({ bytes }) => bytes));

/** Pools in one program; of more, the smallest count as if all members were there to carry their part. */
const mostPools = 200;

export const capacityOf = (
  all: readonly LoadedInstrument[],
  { alone, sharing }: HighFigures,
  most = mostPools,
): Capacity => {
  const own = [...alone];
  const pools: Pool[] = [];
  for (const set of sharing) {
    const { loads, sets } = sharedSamples(set.map((i) => all[i]!));
    const lines = set.map((i, m) => dearest(all[i]!, loads[m]!));
    const inPools = set.map(() => 0);
    for (const { members, bytes } of sets) {
      if (members.length === 1) continue;
      const costs = members.map((m) => ({
        instrument: set[m]!,
        bytes: bytes * lines[m]!.factor,
      }));
      members.forEach((m) => (inPools[m]! += bytes * lines[m]!.factor));
      pools.push({ members: costs });
    }
    set.forEach((i, m) => {
      const load = loads[m]!;
      const room = fitOf(all[i]!.calibration).residual * load.copies;
      const byLine = ownOnLine(lines[m]!, load) + lines[m]!.factor * load.samples + room;
      // In company the lines say; alone a reading may say less. Whole bytes may be half a byte less.
      own[i] = Math.min(byLine - 0.5, alone[i]!) - inPools[m]!;
    });
  }
  pools.sort((a, b) => mostOf(b) - mostOf(a));
  for (const { members } of pools.slice(most)) {
    for (const { instrument, bytes } of members) own[instrument]! += bytes / members.length;
  }
  return { own, pools: pools.slice(0, most) };
};

/** The line by which an instrument takes most. Any line is a way to choose, so none says too much. */
const dearest = ({ calibration }: LoadedInstrument, load: ComputedLoad): Line => {
  const total = (line: Line): number => ownOnLine(line, load) + line.factor * load.samples;
  return fitOf(calibration).lines.reduce((a, b) => (total(b) > total(a) ? b : a));
};
