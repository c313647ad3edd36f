import type { LedgerFaults, WorklistFindings } from '../../terms/findings/worklists.ts';
import { printable } from '../../terms/printable.ts';
import { formatBytes, formatCount, plural } from '../format.ts';
import { listedNames } from './listed-names.ts';
import { words, type Wording, type Words } from './words.ts';

const saveAgain = 'In the spreadsheet, save the sheet as CSV (UTF-8) and give that file.';
const untouched = 'The file was left as it is.';

/** Why the file is no record. */
const unreadable: Readonly<Record<string, readonly [string, string]>> = {
  'quote-open': [
    'A quotation mark opens here and is never closed, so the rest of the record of steps cannot be told apart.',
    'Close it, or take it away; a quotation mark inside a quoted cell is written twice.',
  ],
  'quote-inside': [
    'A quotation mark stands in the middle of a cell, so where the cell ends is not certain.',
    'Put the whole cell in quotation marks and write the one inside twice, or take it away.',
  ],
  'too-large': [
    'The record of steps is larger than this tool takes on: 64 MiB, or about four million cells.',
    'Give the file that keepset worklist wrote.',
  ],
  binary: ['This is not a table: it holds signs that no text has.', saveAgain],
};

/** The first names, and how many more there are. */
const someNames = (names: readonly string[]): string =>
  listedNames(names.slice(0, 8), Math.max(0, names.length - 8));

/** Ranges that are named. */
const mostRanges = 12;

const numbersOf = (ranges: readonly string[]): string =>
  `${ranges.slice(0, mostRanges).map(printable).join(', ')}${ranges.length > mostRanges ? ' and others' : ''}`;

const isOne = (ranges: readonly string[]): boolean =>
  ranges.length === 1 && !ranges[0]!.includes('-');

const staleWhat = ({ instrument, copy, reason }: WorklistFindings['worklist-ledger-stale']) =>
  ({
    instrument: `${printable(instrument)}, an instrument that is not in the template`,
    zones: `zones of ${printable(instrument)} as another definition numbers them`,
    copies: `the copy "${printable(copy ?? '')}" of ${printable(instrument)}, whose copies all load the same`,
    'copy-gone':
      copy === null
        ? `copies of ${printable(instrument)} that no cue played, of which there are others now or none`
        : `the copy "${printable(copy)}" of ${printable(instrument)}, which is not there any more`,
  })[reason];

const staleHint = ({
  number,
  instrument,
  reason,
}: WorklistFindings['worklist-ledger-stale']): string =>
  reason === 'copy-gone'
    ? `Its track may have another name or another route now: load that copy in full and take the tick back (--undo ${String(number)}); or load the full template and begin a new record.`
    : reason === 'zones'
      ? `Put that definition back; or, if ${printable(instrument)} is loaded in full again, take the tick back (--undo ${String(number)}); or load the full template and begin a new record.`
      : 'The record belongs to another state of the template. Load the full template and begin a new record.';

/** The record of numbers and ticks, as a person saved it. */
const ledgerWording: Wording<keyof LedgerFaults> = {
  'ledger-unreadable': ({ problem }): Words => {
    const [message, hint] = unreadable[problem] ?? [
      `The record of steps cannot be read (${printable(problem)}).`,
      saveAgain,
    ];
    return words(message, hint);
  },
  'ledger-empty': () =>
    words(
      'The file is empty, so it is no record of steps.',
      'Delete it to begin a new record, or name the one that you have.',
    ),
  'ledger-column-missing': ({ column, near }) =>
    words(
      `A column is missing from the record of steps: ${printable(column)}. ${untouched}`,
      near === null
        ? 'The headings are "number", "action", "done", "bytes" and "note"; others may stand beside them.'
        : `The heading "${printable(near)}" may mean it; if it does, call it "${printable(column)}".`,
    ),
  'ledger-column-twice': ({ column }) =>
    words(
      `The column "${printable(column)}" is there twice, so which one counts is not certain.`,
      'Rename or take away one of the two.',
    ),
  'ledger-row-long': ({ cells, columns }) =>
    words(
      `The row has ${plural(cells, 'cell')} under ${plural(columns, 'heading')}, so its cells may stand under the wrong ones.`,
      'Put a cell that holds a comma or semicolon of its own in quotation marks.',
    ),
  'ledger-number': ({ text }) =>
    words(
      text === ''
        ? 'The row has no number.'
        : `The column "number" holds "${printable(text)}" here, which is no number of a step.`,
      'Write the number that the step had, a whole number from 1 up; remarks go into the column "note".',
    ),
  'ledger-number-twice': ({ number, line }) =>
    words(
      `Step ${String(number)} is there twice; the other one is in line ${String(line)}.`,
      'Take away the row that was added, or give each the number that it had.',
    ),
  'ledger-action': ({ text }) =>
    words(
      text === ''
        ? 'The row does not say what its step does.'
        : `The column "action" holds "${printable(text)}" here, which keepset did not write so.`,
      'Put back what stood there, such as unload horns/sustain: 0-11 #1a2b3c4d; the list can be made anew for it.',
    ),
  'ledger-done': ({ text }) =>
    words(
      `The column "done" holds "${printable(text)}" here, which is neither yes nor no.`,
      'Write yes or x for a step that is done, and nothing for one that is not.',
    ),
  'ledger-bytes': ({ text }) =>
    words(
      `The column "bytes" holds "${printable(text)}" here, which is no amount of memory.`,
      'Write a number with its unit as the display has it, such as 1.24 GiB or 1240 MB, or whole bytes.',
    ),
  'ledger-more-errors': ({ more }) =>
    words(
      `The record of steps has ${plural(more, 'more mistake')} that ${more === 1 ? 'is' : 'are'} not listed.`,
      'Mend those that are listed first.',
    ),
  'ledger-number-unknown': ({ numbers, there }) =>
    words(
      `There ${isOne(numbers) ? 'is no step' : 'are no steps'} ${numbersOf(numbers)} in the record${there.length === 0 ? ', which has none yet' : ''}.`,
      there.length === 0
        ? 'Make the list with --loaded first, so that its numbers are recorded.'
        : `Its numbers are ${numbersOf(there)}.`,
    ),
  'ledger-tick-late': ({ number, later }) =>
    words(
      `Step ${String(number)} can not be ticked: step ${String(later)}, which came later and is done, does the contrary.`,
      `If ${String(later)} no longer holds, take its tick back first (--undo ${String(later)}); else make the list again and do what it says.`,
    ),
  'ledger-numbers-spent': () =>
    words(
      'The record holds the highest number that a step can have, so there is none left for another.',
      'Look for a number that was typed by mistake and take its row away.',
    ),
};

/** Steps for a person. */
export const worklistWording: Wording<keyof WorklistFindings> = {
  ...ledgerWording,
  'worklist-not-proved': ({ cues, unmapped }) =>
    words(
      `The plan can't vouch for all of its cues: ${[
        ...(cues.length === 0 ? [] : [`${listedNames(cues, 0)} could not be read to the end`]),
        ...(unmapped === 0 ? [] : [`${plural(unmapped, 'track')} with notes had no instrument`]),
      ].join('; ')}.`,
      'What they play may need what this list unloads: mend that first, or keep the full template at hand.',
    ),
  'worklist-template-changed': () =>
    words(
      'The template is not the one that the keep file was made with, or has been edited since.',
      'Plan again with this template, or name the one of the plan: --template FILE.',
    ),
  'worklist-instrument-changed': ({ instrument }) =>
    words(
      `The definition of ${printable(instrument)} is not the one that the keep file was made with.`,
      'Plan again with this definition, or put that one back.',
    ),
  'worklist-cues-changed': ({ cues }) =>
    words(
      `${plural(cues.length, 'cue')} ${cues.length === 1 ? 'is' : 'are'} not as the plan has ${cues.length === 1 ? 'it' : 'them'}: ${someNames(cues)}.`,
      'This list follows the plan. Run keepset check to see whether more is needed now, or plan again.',
    ),
  'worklist-ledger-stale': (args) =>
    words(
      `Step ${String(args.number)} is done and is about ${staleWhat(args)}. ${untouched}`,
      staleHint(args),
    ),
  'worklist-copy-gone': ({ number, instrument, copy }) => {
    const args = { number, instrument, copy, reason: 'copy-gone' } as const;
    return words(
      `Step ${String(number)} is done and is about ${staleWhat(args)}. Copies that are there count as loaded in full.`,
      staleHint(args),
    );
  },
  'worklist-ledger-left': (args) =>
    words(
      `Step ${String(args.number)} was not done and is about ${staleWhat(args)}; it is left aside.`,
      'Nothing needs to be done: its number is not given to another step.',
    ),
  'worklist-mutes': ({ machine, zones, bytes }) =>
    words(
      `${plural(zones, 'zone')} on machine ${printable(machine)} ${zones === 1 ? 'stays' : 'stay'} only to stop others. The plan counts ${zones === 1 ? 'it' : 'them'} without samples; by hand ${zones === 1 ? 'it comes' : 'they come'} with them, which takes up to ${formatBytes(bytes)} more.`,
      `If ${formatCount(bytes)} bytes matter, write smaller instruments with keepset trim instead.`,
    ),
};
