import { computedLoad, type ComputedLoad } from './computed-load.ts';
import type { LoadedInstrument } from './loaded.ts';
import { sampleNumbers } from './sample-numbers.ts';
import { noSamples, sampleLoads } from './zone-load.ts';

/** Samples that the same members of a group have loaded. */
export interface SharedSamples {
  /** Indices into the group, ascending. */
  readonly members: readonly number[];
  /** Bytes of the samples as computed, each once. */
  readonly bytes: number;
}

/**
 * What instruments of one definition have loaded: each by itself, and their samples by who has them.
 *
 * @param group instruments with the same player, which shares, and the same definition
 */
export const sharedSamples = (
  group: readonly LoadedInstrument[],
): { readonly loads: readonly ComputedLoad[]; readonly sets: readonly SharedSamples[] } => {
  const marked = group.map(({ instrument, player, copies }) => {
    const seen = noSamples(instrument);
    return { seen, load: computedLoad(instrument, player, copies, seen) };
  });
  const numbered = group.map(({ instrument }) => sampleNumbers(instrument));
  const size = numbered[0]?.definition.size ?? 0;
  /** By sample number: the set it is in, 0 for none; and its bytes. */
  const setOf = new Uint32Array(size);
  const bytesOf = new Float64Array(size);
  const sets: { members: readonly number[]; bytes: number }[] = [{ members: [], bytes: 0 }];
  group.forEach(({ instrument, player }, member) => {
    const { seen } = marked[member]!;
    const { numbers } = numbered[member]!;
    const loads = sampleLoads(instrument, player);
    /** By set: the one with this member on top; 0 before it is needed. */
    const grown = new Uint32Array(sets.length);
    for (let sample = 0; sample < seen.length; sample++) {
      if (seen[sample] !== 1) continue;
      const n = numbers[sample]!;
      const before = setOf[n]!;
      if (grown[before] === 0) {
        grown[before] = sets.length;
        sets.push({ members: [...sets[before]!.members, member], bytes: 0 });
      }
      setOf[n] = grown[before]!;
      // The same for all members: a definition has one size for it, and the player is the same.
      bytesOf[n] = loads[sample]!;
    }
  });
  setOf.forEach((set, n) => (sets[set]!.bytes += bytesOf[n]!));
  return { loads: marked.map(({ load }) => load), sets: sets.filter(({ bytes }) => bytes > 0) };
};
