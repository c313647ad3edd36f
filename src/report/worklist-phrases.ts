import type { WorklistAction } from '../trim/worklist/worklist.ts';
import { plural } from './format.ts';
import type { Look } from './look.ts';
import { withCommas, type Piece } from './phrase-cell.ts';
import { keptItems, unitWords } from './worklist-words.ts';

/** The articulation, the layer, the microphone; or all of the instrument. */
export const unitPhrase = ({
  unit,
  spareCopies,
}: Pick<WorklistAction, 'unit' | 'spareCopies'>): readonly Piece[] => {
  if (spareCopies > 0) return [`${plural(spareCopies, 'copy', 'copies')} that no cue plays`];
  if (unit.grain === 'instrument') return ['all of it'];
  const { articulations, layer, microphone } = unitWords(unit);
  const names: readonly Piece[] = articulations.flatMap((name, i): readonly Piece[] =>
    i === 0 ? [{ name }] : ['and', { name }],
  );
  const phrase: readonly Piece[] = [
    ...names,
    ...(layer === '' ? [] : [layer]),
    ...(microphone === null ? [] : ['microphone', { name: microphone }]),
  ];
  return phrase.length === 0 ? ['zones that nothing starts'] : phrase;
};

/** What is loaded of the unit when the line is done. */
export const keptPhrase = (
  { does, keeps }: Pick<WorklistAction, 'does' | 'keeps'>,
  look: Look,
): readonly Piece[] => {
  if (keeps === null) return [does === 'load' ? 'loaded whole' : 'nothing stays'];
  const items = keptItems(keeps, look.middleC);
  return [does === 'load' ? 'have' : 'keep', ...(items.length === 0 ? ['it'] : withCommas(items))];
};
