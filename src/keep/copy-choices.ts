import type { CopyUsage, FileUsage } from '../playback/zone-usage.ts';
import { plain, type DoubtSet } from '../terms/doubt.ts';
import type { PlanChoice } from './plan.ts';

/** What a copy of an instrument chooses over the reel, and whether some cue depends on it. */
export interface CopyChoices {
  readonly chosen: readonly PlanChoice[];
  readonly opensUnset: boolean;
}

/**
 * Choices of each copy of an instrument, by the copy's name.
 *
 * @param files in reel order
 * @param excluded doubts settled as plain
 */
export const copyChoices = (
  instrument: string,
  files: readonly FileUsage[],
  excluded: DoubtSet,
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
      { chosen: choicesOf(own), opensUnset: own.some(({ copy }) => opensUnset(copy, excluded)) },
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

/**
 * True where some start saw a switch that only the rest of the reel can tell.
 *
 * @param excluded doubts settled as plain: what is so only under them counts nowhere; none: any counts
 */
export const opensUnset = ({ alternatives }: CopyUsage, excluded: DoubtSet = plain): boolean =>
  alternatives.some((list) =>
    list.some(
      ({ value, doubt }) =>
        (value === 'chosen' || value === 'unchosen') && (doubt & excluded) === plain,
    ),
  );
