import type { Look } from '../look.ts';
import { plainColors } from '../colors.ts';
import type { OverviewStep } from '../../overview/overview.ts';
import type { Piece } from '../phrase-cell.ts';
import { keptPhrase, unitPhrase } from '../worklist-rows.ts';
import { joined, type Html } from './html.ts';
import { named } from './names.ts';
import { inRanges } from './numbers.ts';

const pieces = (phrase: readonly Piece[]): Html =>
  joined(
    phrase.map((piece) => (typeof piece === 'string' ? inRanges(piece) : named(piece.name))),
    ' ',
  );

/** What a step is about, beside its instrument, in the words of the worklist. */
export const unitPieces = (action: OverviewStep): Html => pieces(unitPhrase(action));

/** What is loaded of it when the step is done. */
export const keptPieces = (action: OverviewStep, middleC: number): Html => {
  const look: Look = { colors: plainColors, ascii: false, width: null, middleC };
  return pieces(keptPhrase(action, look));
};
