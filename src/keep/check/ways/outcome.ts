import { plain, type DoubtSet } from '../../../terms/doubt.ts';
import { holdsWithout } from '../../doubt-sets.ts';
import type { ReachedStart } from '../../reacher.ts';

/** What may be heard of a start by the plain reading: nothing, only that it stops others, a sound. */
export const heard = { nothing: 0, silence: 1, sound: 2 } as const;

/** What becomes of a class of usage with the zones that are kept. */
export interface Outcome {
  /** Zones that are asked for and missing, each once. */
  readonly missing: readonly number[];
  /** One of {@link heard}. */
  readonly heard: number;
}

/** What stays loaded in one copy, by zone. */
export interface Loaded {
  /** Doubts settled as plain. */
  readonly excluded: DoubtSet;
  /** It stays with its samples, and the start of the program that leads to it does. */
  readonly isLoaded: (zone: number, start: number) => boolean;
  /** It stays, with samples or without. */
  readonly isKept: (zone: number) => boolean;
}

const none: readonly number[] = [];

/** Holds what a class reaches against what is kept. */
export const outcomeOf = (
  starts: readonly ReachedStart[],
  { excluded, isLoaded, isKept }: Loaded,
): Outcome => {
  let missing = none;
  let most: number = heard.nothing;
  for (const { index, start, doubts } of starts) {
    const isSilent = start.silent === true;
    if (doubts[0] === plain) most = Math.max(most, isSilent ? heard.silence : heard.sound);
    if (isSilent ? isKept(start.zone) : isLoaded(start.zone, index)) continue;
    if (!holdsWithout(doubts, excluded) || missing.includes(start.zone)) continue;
    missing = [...missing, start.zone];
  }
  return { missing, heard: most };
};
