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
  const usages = new Map<string, OwnUsage[]>();
  for (const { cue, copies } of files) {
    for (const copy of copies) {
      if (copy.instrument !== instrument) continue;
      const known = usages.get(copy.copy);
      if (known === undefined) usages.set(copy.copy, [{ cue, copy }]);
      else known.push({ cue, copy });
    }
  }
  return new Map(
    [...usages].map(([name, own]) => [
      name,
      { chosen: choicesOf(own), opensUnset: own.some(({ copy }) => opensUnset(copy)) },
    ]),
  );
};

interface OwnUsage {
  readonly cue: string;
  readonly copy: CopyUsage;
}

/** Several files of one cue choose as one. */
const choicesOf = (usages: readonly OwnUsage[]): readonly PlanChoice[] => {
  const found = new Map<string, Omit<PlanChoice, 'values'> & { values: Set<number> }>();
  for (const { cue, copy } of usages) {
    for (const { signal, channel: own, values } of copy.chosen) {
      const channel = own < 0 ? null : own + 1;
      const key = JSON.stringify([cue, signal, channel]);
      const choice = found.get(key) ?? { cue, signal, channel, values: new Set<number>() };
      found.set(key, choice);
      for (const value of values) choice.values.add(value);
    }
  }
  return [...found.values()].map((choice) => ({
    ...choice,
    values: [...choice.values].sort((a, b) => a - b),
  }));
};

/** Some start saw a switch that only the rest of the reel can tell. */
export const opensUnset = ({ alternatives }: CopyUsage): boolean =>
  alternatives.some((list) => list.some(({ value }) => value === 'chosen' || value === 'unchosen'));
