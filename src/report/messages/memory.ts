import type { MemoryFindings } from '../../terms/findings/memories.ts';
import { printable } from '../../terms/printable.ts';
import { formatBytes, formatCount, plural } from '../format.ts';
import { words, type Wording, type Words } from './words.ts';

const meant = (near: string | null, otherwise: string): string =>
  near === null ? otherwise : `Did you mean "${printable(near)}"?`;

const listed = (names: readonly string[]): string => {
  const shown = names.slice(0, 4).map(printable).join(', ');
  return names.length > 4 ? `${shown} and ${formatCount(names.length - 4)} more` : shown;
};

const read = (instrument: string, copy: string | null): string =>
  copy === null
    ? printable(instrument)
    : `the copy "${printable(copy)}" of ${printable(instrument)}`;

const keepDiffers = ({
  instrument,
  missing,
  idle,
}: MemoryFindings['memory-keep-differs']): Words => {
  const [some, none] = [
    `${plural(missing, 'zone')} that the keep file lets go`,
    `${plural(idle, 'zone')} that nothing needs`,
  ];
  const what =
    idle === 0
      ? `The cues need ${some} of ${printable(instrument)}`
      : missing === 0
        ? `The keep file keeps ${none} of ${printable(instrument)}`
        : `The cues need ${some} of ${printable(instrument)}, and it keeps ${none}`;
  return words(
    `${what}: it was edited, or made by another version.`,
    'The figures are those of the file as it stands with what the cues need; make the plan again to be sure.',
  );
};

const saveAgain = 'In the spreadsheet, save the sheet as CSV (UTF-8) and give that file.';

/** Why the file is no table of readings. */
const unreadable: Readonly<Record<string, readonly [string, string]>> = {
  'quote-open': [
    'A quotation mark opens here and is never closed, so the rest of the table of readings cannot be told apart.',
    'Close it, or take it away; a quotation mark inside a quoted cell is written twice.',
  ],
  'quote-inside': [
    'A quotation mark stands in the middle of a cell, so where the cell ends is not certain.',
    'Put the whole cell in quotation marks and write the one inside twice, or take it away.',
  ],
  'too-large': [
    'The table of readings is larger than this tool takes on: 64 MiB, or about four million cells.',
    'Give the table with a row for each reading, and nothing else.',
  ],
  binary: ['This is not a table: it holds signs that no text has.', saveAgain],
};

/** What the cues of a reel need in memory, and tables of readings that are held against it. */
export const memoryWording: Wording<keyof MemoryFindings> = {
  'memory-over-budget': ({ machine, high, budget }) =>
    words(
      `What is loaded at once does not fit on machine ${printable(machine)}: up to ${formatBytes(high)} are needed, and ${formatBytes(budget)} may be filled.`,
      'The report tells what would make room; else load the cues in groups (--groups).',
    ),
  'memory-cue-alone': ({ cues, machine, high, budget }) =>
    words(
      `${cues.length === 1 ? `Cue ${listed(cues)} does` : `${plural(cues.length, 'cue')} do`} not fit on machine ${printable(machine)} even by ${cues.length === 1 ? 'itself' : 'themselves'}${cues.length === 1 ? '' : ` (${listed(cues)})`}: up to ${formatBytes(high)} are needed, and ${formatBytes(budget)} may be filled.`,
      'Move an instrument to another machine, settle a doubt that you can answer, or write a smaller instrument with keepset trim.',
    ),
  'memory-keep-differs': keepDiffers,
  'memory-template-changed': () =>
    words(
      'The template is not the one that the keep file was made with.',
      'Plan again with this template, so that the figures are of one state.',
    ),
  'memory-instrument-changed': ({ instrument }) =>
    words(
      `The definition of ${printable(instrument)} is not the one that the keep file was made with.`,
      'Plan again with this definition, or put that one back.',
    ),
  'memory-cue-changed': ({ cue }) =>
    words(
      `Cue ${printable(cue)} is not the one that the keep file was made with.`,
      'Run keepset check to see what it asks for now, and plan again.',
    ),
  'memory-no-load-rate': ({ players }) =>
    words(
      `How long a change takes is not known: ${listed(players)} ${players.length === 1 ? 'has' : 'have'} no load-rate.`,
      'Time one load and write it to the player in the template, such as load-rate: 300 MB/s.',
    ),
  'loaded-far-off': ({ instrument, shown, estimate }) =>
    words(
      `The reading of ${printable(instrument)}, ${formatBytes(shown)}, is far from the estimate, ${formatBytes(estimate)}.`,
      'Check that just what the cues need was loaded, and that the reading is of this instrument alone.',
    ),
  'loaded-unreadable': ({ problem }) => {
    const [message, hint] = unreadable[problem] ?? [
      `The table of readings cannot be read (${printable(problem)}).`,
      saveAgain,
    ];
    return words(message, hint);
  },
  'loaded-empty': () =>
    words(
      'The table of readings has no rows.',
      'Write a row for each reading under the headings "instrument" and "loaded".',
    ),
  'loaded-column-missing': ({ column, near }) =>
    words(
      `A column is missing from the table of readings: ${printable(column)}.`,
      near === null
        ? 'The headings are "instrument", "loaded" and, where one copy was read, "copy".'
        : `The heading "${printable(near)}" may mean it; if it does, call it "${printable(column)}".`,
    ),
  'loaded-column-unknown': ({ column, near }) =>
    words(
      `The column "${printable(column)}" is not one that a table of readings has; it was skipped.`,
      meant(near, 'Nothing needs to be done.'),
    ),
  'loaded-column-twice': ({ column }) =>
    words(
      `The column "${printable(column)}" is there twice, so which one counts is not certain.`,
      'Rename or take away one of the two.',
    ),
  'loaded-row-long': ({ cells, columns }) =>
    words(
      `The row has ${plural(cells, 'cell')} under ${plural(columns, 'heading')}, so its cells may stand under the wrong ones.`,
      'Put a cell that holds a comma or semicolon of its own in quotation marks.',
    ),
  'loaded-instrument': ({ instrument, near }) =>
    words(
      `The table names the instrument "${printable(instrument)}", which is not there.`,
      meant(near, 'Write the name that the instrument has in the template.'),
    ),
  'loaded-copy': ({ instrument, copy, near }) =>
    words(
      `The table names the copy "${printable(copy)}", which ${printable(instrument)} does not have in these cues.`,
      meant(near, 'Write the name as the plan shows it, or leave the cell empty for all copies.'),
    ),
  'loaded-amount': ({ text }) =>
    words(
      text === ''
        ? 'The row does not say what the player shows.'
        : `The column "loaded" holds "${printable(text)}" here, which is no amount of memory.`,
      'Write a number with its unit as the display has it, such as 1.24 GiB or 1240 MB: nothing between thousands.',
    ),
  'loaded-twice': ({ instrument, copy }) =>
    words(
      `The table has two readings of ${read(instrument, copy)}, so which one counts is not certain.`,
      'Keep the later one.',
    ),
  'loaded-more-errors': ({ more }) =>
    words(
      `The table of readings has ${plural(more, 'more mistake')} that ${more === 1 ? 'is' : 'are'} not listed.`,
      'Mend those that are listed first.',
    ),
  'loaded-unneeded': ({ instrument, copy }) =>
    words(
      `The cues need nothing of ${read(instrument, copy)}, so the reading is left out.`,
      'Read the display with just that loaded which the cues need.',
    ),
};
