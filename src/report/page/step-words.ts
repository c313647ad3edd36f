import type { Look } from '../look.ts';
import { plainColors } from '../colors.ts';
import type { Overview } from '../../overview/overview.ts';
import type { OverviewStep } from '../../overview/overview-steps.ts';
import type { Piece } from '../phrase-cell.ts';
import { keptPhrase, unitPhrase } from '../worklist-phrases.ts';
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
  const { unit, spareCopies, does, keeps } = action;
  const { layer, microphone, grain } = unit;
  if (spareCopies > 0 || grain === 'instrument') return pieces(unitPhrase(action));
  const isPart = does === 'unload' && keeps !== null;
  const isNameless = isOnly && (isPart || layer !== null || microphone !== null);
  const named = isNameless ? { ...unit, articulations: [] } : unit;
  const says = named.articulations.length > 0 || layer !== null || microphone !== null;
  if (!says && isPart) return markup`keys and layers not needed`;
  const phrase = pieces(unitPhrase({ unit: named, spareCopies }));
  return isPart ? markup`${phrase}, in part` : phrase;
};

/** Whether an instrument has one articulation alone. */
export const hasOnlyOne = ({ instruments }: Overview, instrument: string): boolean =>
  instruments.find(({ id }) => id === instrument)?.articulations.length === 1;

/** What is loaded of it when the step is done. */
export const keptPieces = (action: OverviewStep, middleC: number): Html => {
  const look: Look = { colors: plainColors, ascii: false, width: null, middleC };
  return pieces(keptPhrase(action, look));
};
