import type { OverviewStep } from '../../overview/overview-steps.ts';
import type { Overview } from '../../overview/overview.ts';
import type { Piece } from '../phrase-cell.ts';
import { unitPhrase } from '../worklist-phrases.ts';

/** What a step unloads, beside its instrument. */
export interface StepUnit {
  readonly phrase: readonly Piece[];
  /** A part of it stays. */
  readonly isPart: boolean;
}

/**
 * What a step is about, in the words of the worklist.
 *
 * @param isOnly whether the instrument has this articulation alone, so that its name tells nothing
 */
export const stepUnit = (step: OverviewStep, isOnly: boolean): StepUnit => {
  const { unit, spareCopies, does, keeps } = step;
  const { layer, microphone, grain } = unit;
  if (spareCopies > 0 || grain === 'instrument') return { phrase: unitPhrase(step), isPart: false };
  const isPart = does === 'unload' && keeps !== null;
  const isNameless = isOnly && (isPart || layer !== null || microphone !== null);
  const named = isNameless ? { ...unit, articulations: [] } : unit;
  const says = named.articulations.length > 0 || layer !== null || microphone !== null;
  if (!says && isPart) return { phrase: ['keys and layers not needed'], isPart: false };
  return { phrase: unitPhrase({ unit: named, spareCopies }), isPart };
};

/** Whether an instrument has one articulation alone. */
export const hasOnlyOne = ({ instruments }: Overview, instrument: string): boolean =>
  instruments.find(({ id }) => id === instrument)?.articulations.length === 1;
