import type { WorklistAction, WorklistMachine } from '../trim/worklist/worklist.ts';
import { fixed, type Cell } from './cell.ts';
import { formatBytes, tableUnit, type ByteUnit } from './format.ts';
import type { Look } from './look.ts';
import { phraseCell, stackedCell, writtenWords, type Piece } from './phrase-cell.ts';
import { layOut, notShown, type Column, type Row } from './table.ts';
import { keptPhrase, unitPhrase } from './worklist-phrases.ts';
import { doesWord, runsOf, signedBytesIn, unknownSize, type ActionRun } from './worklist-words.ts';

/** Where a person writes what the player shows. */
export const blankToFill = '_'.repeat(8);

/** Numbers that fit beside their boxes, one below the other. */
const boxed = (number: number, digits: number): string =>
  `[ ] ${String(number).padStart(digits, ' ')}`;

const headingRow = ({ instrument, copy }: ActionRun, look: Look): readonly Cell[] => {
  const phrase: readonly Piece[] =
    copy === null ? [{ name: instrument }] : [{ name: instrument }, 'copy', { name: copy }];
  const title = phraseCell(phrase, look, look.colors.bold);
  return columnCells({ what: title });
};

const empty = fixed('');

const columnCells = ({
  step = empty,
  does = empty,
  what = empty,
  stays = empty,
  frees = empty,
  total = empty,
  seen = empty,
}: Partial<
  Record<'step' | 'does' | 'what' | 'stays' | 'frees' | 'total' | 'seen', Cell>
>): readonly Cell[] => [step, does, what, stays, frees, total, seen];

const actionRow = (
  action: WorklistAction,
  digits: number,
  unit: ByteUnit,
  look: Look,
): readonly Cell[] =>
  columnCells({
    step: fixed(boxed(action.number, digits)),
    does: fixed(doesWord(action), action.does === 'load' ? look.colors.bold : undefined),
    what: phraseCell(unitPhrase(action), look),
    stays: stackedCell(
      [
        keptPhrase(action, look),
        ...(action.note === '' ? [] : [['note:', ...writtenWords(action.note, look)]]),
      ],
      look,
    ),
    frees: fixed(action.unknownSamples > 0 ? unknownSize : signedBytesIn(action.frees, unit)),
    total: fixed(action.unknownSamples > 0 ? unknownSize : signedBytesIn(action.total, unit)),
    seen: fixed(action.seen === null ? blankToFill : formatBytes(action.seen)),
  });

const columnsOf = (unit: ByteUnit): readonly Column[] => [
  { title: ['Step'], align: 'left' },
  { title: [''], align: 'left' },
  { title: ['What'], align: 'left', min: 12 },
  { title: ['What stays'], align: 'left', min: 12 },
  { title: ['Frees', unit.name], align: 'right', leaveOut: 1 },
  { title: ['Then', unit.name], align: 'right', leaveOut: 3 },
  { title: ['Seen'], align: 'left', leaveOut: 2 },
];

/** The unit of all figures of a machine's lines. */
export const machineUnit = ({ bytes }: Pick<WorklistMachine, 'bytes'>): ByteUnit =>
  tableUnit(Math.max(bytes.full, bytes.now, bytes.after));

/** The lines of a machine in the order in which they are done, under the names of instruments. */
export const worklistRows = (machine: WorklistMachine, look: Look): readonly string[] => {
  const { actions } = machine;
  const unit = machineUnit(machine);
  const digits = String(actions.reduce((most, { number }) => Math.max(most, number), 0)).length;
  const blank = columnCells({});
  const rows = runsOf(actions).flatMap((run, i): readonly Row[] => [
    ...(i === 0 ? [] : [blank]),
    headingRow(run, look),
    ...run.actions.map((action) => actionRow(action, digits, unit, look)),
  ]);
  const { text, leftOut } = layOut(columnsOf(unit), rows, look);
  return [text, ...notShown(leftOut, look)];
};
