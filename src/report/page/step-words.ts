import type { Look } from '../look.ts';
import { plainColors } from '../colors.ts';
import type { OverviewStep } from '../../overview/overview-steps.ts';
import type { Piece } from '../phrase-cell.ts';
import { stepUnit, type StepUnit } from '../said/step-unit.ts';
import { keptPhrase } from '../worklist-phrases.ts';
import { joined, markup, type Html } from './html.ts';
import { named } from './names.ts';
import { inRanges } from './numbers.ts';

const pieces = (phrase: readonly Piece[]): Html =>
  joined(
    phrase.map((piece) => (typeof piece === 'string' ? inRanges(piece) : named(piece.name))),
    ' ',
  );

/**
 * What a step is about, beside its instrument, in the words of the worklist. Where a part of it stays,
 * it says so.
 *
 * @param isOnly whether the instrument has this articulation alone, so that its name tells nothing
 */
export const unitPieces = (action: OverviewStep, isOnly: boolean): Html => {
  return phrasePieces(stepUnit(action, isOnly));
};

/** What one step, or several together, unload. */
export const phrasePieces = ({ phrase, isPart }: StepUnit): Html =>
  isPart ? markup`${pieces(phrase)}, in part` : pieces(phrase);

/** What is loaded of it when the step is done; null: nothing, which an empty place says best. */
export const keptPieces = (action: OverviewStep, middleC: number): Html | null => {
  if (action.does === 'unload' && action.keeps === null) return null;
  const look: Look = { colors: plainColors, ascii: false, width: null, middleC };
  return pieces(keptPhrase(action, look));
};
