import type { CopyUsage, FileUsage } from '../playback/zone-usage.ts';
import type { PlanChoice } from './plan.ts';

/** What a copy of an instrument chooses over the reel, and whether some cue depends on it. */
export interface CopyChoices {
  readonly chosen: readonly PlanChoice[];
  readonly opensUnset: boolean;
}

/** Choices of each copy of an instrument, by the copy's name. @param files in reel order */
export const copyChoices = (
  instrument: string,
  files: readonly FileUsage[],
): ReadonlyMap<string, CopyChoices> => {
  const usages = new Map<string, CopyUsage[]>();
  for (const copy of files.flatMap((file) => file.copies)) {
    if (copy.instrument !== instrument) continue;
    const known = usages.get(copy.copy);
    if (known === undefined) usages.set(copy.copy, [copy]);
    else known.push(copy);
  }
  return new Map(
    [...usages].map(([name, own]) => [
      name,
      { chosen: choicesOf(own), opensUnset: own.some(opensUnset) },
    ]),
  );
};

const choicesOf = (usages: readonly CopyUsage[]): readonly PlanChoice[] => {
  const found = new Map<string, { signal: number; channel: number; values: Set<number> }>();
  for (const { signal, channel, values } of usages.flatMap(({ chosen }) => chosen)) {
    const key = `${String(signal)} ${String(channel)}`;
    const own = found.get(key) ?? { signal, channel, values: new Set<number>() };
    found.set(key, own);
    for (const value of values) own.values.add(value);
  }
  return [...found.values()]
    .sort((a, b) => a.signal - b.signal || a.channel - b.channel)
    .map(({ signal, channel, values }) => ({
      signal,
      channel: channel < 0 ? null : channel + 1,
      values: [...values].sort((a, b) => a - b),
    }));
};

/** Some start saw a switch that only the rest of the reel can tell. */
const opensUnset = ({ alternatives }: CopyUsage): boolean =>
  alternatives.some((list) => list.some(({ value }) => value === 'chosen' || value === 'unchosen'));
