import type { OverviewAction } from '../../overview/overview-steps.ts';
import type { Overview } from '../../overview/overview.ts';
import { fixed, name, words, type Cell } from '../cell.ts';
import { bytesIn, plural, tableUnit } from '../format.ts';
import type { Look } from '../look.ts';
import { largestOf } from '../memory-words.ts';
import { nameInText } from '../name-list.ts';
import { paragraph } from '../paragraph.ts';
import { phraseCell, type Piece } from '../phrase-cell.ts';
import { actionUnit, type ActionUnit } from '../said/action-unit.ts';
import { missedStepsSaid } from '../said/missed-steps.ts';
import { nothingToDo } from '../said/nothing-to-do.ts';
import { numberRanges, unknownSize } from '../worklist-words.ts';
import { saidText } from './said-text.ts';
import { titledTable } from './titled-table.ts';

/** What of the instrument goes. */
const whatGoes = ({ phrase, isPart }: ActionUnit): readonly Piece[] =>
  isPart ? ['a part of', ...phrase] : phrase;

/** On one line where nothing limits it; else as far as it has room. */
const phraseOnALine = (phrase: readonly Piece[], look: Look): Cell => {
  const whole = phrase
    .map((piece) => (typeof piece === 'string' ? piece : nameInText(piece.name, look)))
    .join(' ');
  const { fit } = phraseCell(phrase, look);
  return { whole, fit: (width) => (width === Infinity ? whole : fit(width)) };
};

const instrumentCell = (
  { instruments }: Overview,
  { instrument }: OverviewAction,
  { copies }: ActionUnit,
  look: Look,
): Cell => {
  const id = instruments[instrument]?.id ?? '';
  const [copy, ...others] = copies;
  if (copy === undefined) return name(id, look);
  const of =
    others.length > 0 ? [plural(copies.length, 'copy', 'copies')] : ['copy', { name: copy }];
  return phraseOnALine([{ name: id }, ...of], look);
};

/** What is not to be done, then the steps of the worklist that free most. */
export const firstStepLines = (overview: Overview, look: Look): readonly string[] => {
  const doNot = missedStepLines(overview, look);
  return [...doNot, ...(doNot.length > 0 ? [''] : []), ...mostLines(overview, look)];
};

const missedStepLines = (overview: Overview, look: Look): readonly string[] =>
  missedStepsSaid(overview).flatMap(({ doNot, why }) =>
    paragraph(
      [{ text: saidText(doNot, look), paint: look.colors.bold }, saidText(why, look)],
      look.width,
    ),
  );

const mostLines = (overview: Overview, look: Look): readonly string[] => {
  const { actions, machines } = overview;
  if (actions.length === 0) return paragraph([nothingToDo(overview)], look.width);
  const unit = tableUnit(largestOf(actions.map(({ frees }) => frees)));
  return titledTable(
    'What frees most',
    [
      { title: ['Step'], align: 'right', min: 5 },
      { title: ['Machine'], align: 'left', min: 7 },
      { title: ['Instrument'], align: 'left', min: 10 },
      { title: ['What to unload'], align: 'left', min: 14, leaveOut: 1 },
      { title: ['Frees', unit.name], align: 'right' },
    ],
    actions.map((action) => {
      const unloads = actionUnit(overview, action);
      return [
        words(numberRanges(action.numbers)),
        name(machines[action.machine]?.id ?? '', look),
        instrumentCell(overview, action, unloads, look),
        phraseOnALine(whatGoes(unloads), look),
        fixed(unloads.isUnknown ? unknownSize : bytesIn(action.frees, unit)),
      ];
    }),
    look,
  );
};
