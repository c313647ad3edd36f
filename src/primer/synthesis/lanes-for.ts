import type { Program } from '../../instruments/program.ts';
import type { RoutedCopy, RoutedSource } from '../../template/routed.ts';
import { contains, type Range } from '../../terms/range.ts';
import type { Lane } from '../lanes.ts';
import type { Demand } from './demands.ts';

/** More lanes of one copy than this are not tried for one start. */
const mostLanes = 4;

/** Lanes on which a copy can be sent what a start asks for. */
export const lanesFor = (
  { sources }: RoutedCopy,
  { scope, signals }: Program,
  demand: Demand,
): readonly (readonly [RoutedSource, Lane])[] => {
  const channels = demand.get('channel');
  const patches = demand.get('patch');
  const all = sources.flatMap((source) =>
    Array.from({ length: 16 }, (_, channel) => channel)
      .filter((channel) => (source.channels & (1 << channel)) !== 0)
      .filter((channel) => channels?.some((range) => contains(range, channel + 1)) ?? true)
      .filter((channel) => patches === undefined || patchesOn(channel, patches, 1).length > 0)
      .map((channel) => {
        const { track, port } = source;
        return [source, { track, port, channel }] as const;
      }),
  );
  const tells = scope === 'channel' || signals.some(({ kind }) => kind === 'channel');
  return all.slice(0, tells ? mostLanes : Math.min(2, all.length));
};

/** Patches in `ranges` that bank select and program change reach on a channel; channel 9 plays drums. */
export const patchesOn = (
  channel: number,
  ranges: readonly Range[],
  most: number,
): readonly number[] => {
  const found: number[] = [];
  for (const [lo, hi] of ranges) {
    for (let patch = lo; patch <= hi && found.length < most;) {
      const bank = patch % 32768;
      const fits = channel === 9 ? bank === 128 : bank < 128;
      if (fits) found.push(patch++);
      // On to where a bank of this channel can come next.
      else if (channel === 9 && bank < 128) patch += 128 - bank;
      else patch += 32768 - bank;
    }
  }
  return found;
};
