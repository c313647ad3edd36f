import type { Worklist, WorklistAction, WorklistMachine } from '../trim/worklist/worklist.ts';
import { shownName } from './cell.ts';
import { formatBytes, type ByteUnit } from './format.ts';
import type { Look } from './look.ts';
import { escapeHeading, escapeStart, escapeText } from './markdown/escape.ts';
import type { Piece } from './phrase-cell.ts';
import { worklistAdvice, type WorklistNames } from './worklist-advice.ts';
import { keptPhrase, unitPhrase } from './worklist-phrases.ts';
import { blankToFill, machineUnit } from './worklist-rows.ts';
import { machineState } from './worklist-table.ts';
import {
  worklistAnswer,
  worklistNumbers,
  worklistState,
  worklistWarnings,
} from './worklist-verdict.ts';
import { doesWord, signedBytesIn, unknownSize } from './worklist-words.ts';

const named = (text: string, look: Look): string => escapeText(shownName(text, look));

const phrase = (pieces: readonly Piece[], look: Look): string =>
  pieces.map((piece) => (typeof piece === 'string' ? piece : named(piece.name, look))).join(' ');

const row = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;

/** What is to be filled in by hand would be a rule or stress otherwise. */
const blank = escapeText(blankToFill);

const titlesIn = (unit: ByteUnit): readonly string[] => [
  '',
  'Step',
  '',
  'Instrument',
  'What',
  'What stays',
  `Frees (${unit.name})`,
  `Then (${unit.name})`,
  'Seen',
  'Note',
];
const sides = ['---', '--:', '---', '---', '---', '---', '--:', '--:', '---', '---'];

const actionRow = (action: WorklistAction, unit: ByteUnit, look: Look): string => {
  const { instrument, copy, frees, total, unknownSamples, seen, note } = action;
  return row([
    '[ ]',
    String(action.number),
    doesWord(action),
    copy === null
      ? named(instrument, look)
      : `${named(instrument, look)} copy ${named(copy, look)}`,
    phrase(unitPhrase(action), look),
    phrase(keptPhrase(action, look), look),
    unknownSamples > 0 ? unknownSize : signedBytesIn(frees, unit),
    unknownSamples > 0 ? unknownSize : signedBytesIn(total, unit),
    seen === null ? blank : formatBytes(seen),
    note === '' ? '' : named(note, look),
  ]);
};

const machineSection = (machine: WorklistMachine, look: Look): readonly string[] => {
  const { id, actions } = machine;
  const unit = machineUnit(machine);
  return [
    `## Machine ${escapeHeading(shownName(id, look))}`,
    '',
    machineState(machine).join(' '),
    ...(actions.length === 0
      ? ['', 'Nothing to do.']
      : [
          '',
          row(titlesIn(unit)),
          row(sides),
          ...actions.map((action) => actionRow(action, unit, look)),
        ]),
  ];
};

/** What was done, where details are asked for. */
const doneSection = ({ done }: Worklist, look: Look): readonly string[] =>
  look.details !== true || done.length === 0
    ? []
    : [
        '## Done',
        '',
        row(['', 'Step', 'What', 'Seen', 'Note']),
        row(['---', '--:', '---', '--:', '---']),
        ...done.map(({ number, key, seen, note }) =>
          row([
            '[x]',
            String(number),
            named(key, look),
            seen === null ? '' : formatBytes(seen),
            note === '' ? '' : named(note, look),
          ]),
        ),
      ];

/** The list as Markdown: a table for each machine with boxes to tick, to print or to paste. */
export const worklistMarkdown = (list: Worklist, names: WorklistNames, look: Look): string => {
  // Nothing is cut or coloured: whoever shows it sets its lines.
  const whole: Look = { ...look, width: null };
  const numbers = worklistNumbers(list, whole);
  const sentence = (text: string): string => `- ${escapeStart(text)}`;
  const sections: readonly (readonly string[])[] = [
    ['# Worklist'],
    [`**${worklistAnswer(list)}**`],
    [
      ...worklistState(list).map(sentence),
      ...(numbers ?? []).map((part) => sentence(typeof part === 'string' ? part : part.text)),
      ...worklistWarnings(list).map((text) => sentence(`! ${text}`)),
    ],
    ...list.machines.map((machine) => machineSection(machine, whole)),
    doneSection(list, whole),
    ['## How to use this list', '', ...worklistAdvice(list, names, whole).map(sentence)],
  ];
  const filled = sections.filter(({ length }) => length > 0);
  return `${filled.map((lines) => lines.join('\n')).join('\n\n')}\n`;
};
