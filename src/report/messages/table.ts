import type { TableFindings } from '../../terms/findings/tables.ts';
import { printable } from '../../terms/printable.ts';
import { formatBytes, formatCount, plural } from '../format.ts';
import { words, type Wording } from './words.ts';

const saveAgain = 'In the spreadsheet, save the sheet as CSV (UTF-8) and give that file.';
const asText = 'If the spreadsheet made a date of it, format the column as text and type it again.';
const nothingToDo = 'Nothing needs to be done.';

/** How each column is filled in. */
const ways: Readonly<Record<string, string>> = {
  switch:
    'Write a key (C0 or 12), a program (program 5), a controller (cc 32: 0-20) or a channel (channel 3).',
  keys: `Write keys from low to high, such as C2-E2, 36-40, 36-47|48-59 or "C2..C6 every 3". ${asText}`,
  velocities: `Write velocities from 0 to 127, such as 1-40 or 1-40|41-127. ${asText}`,
  controllers:
    'Write the controller, a colon and its values, such as 1:0-63 or 1:0-63|1:64-127, with & between those that belong together.',
  'sampled-key': 'Write keys such as C4, 60 or C2|E2|G2, or leave the cell empty.',
  sample: 'Write one name, or a name for each zone with | between them, or leave the cell empty.',
  frames: 'Write a whole number without dots or spaces, such as 176400.',
  seconds: 'Write seconds such as 4.5 or 4.5 s.',
  bytes: 'Write bytes as a whole number, or with a unit, such as 1.2 MB or 840 KiB.',
  rate: 'Write frames a second, such as 48000 or 44.1 kHz.',
  bits: 'Write 16, 24 or 32.',
  channels: 'Write a number from 1 to 64, such as 2 for stereo.',
  'round-robin': `Write how many takes alternate (4), which ones these are (1|2|3), or one of how many (2/4). ${asText}`,
  release: 'Write yes, note-off or no, or leave the cell empty.',
  microphone: 'Write one name, or several with | between them, such as close|tree.',
};

const list = (names: readonly string[], more = 0): string => {
  const all = [
    ...names.map((name) => `"${printable(name)}"`),
    ...(more > 0 ? [`${formatCount(more)} more`] : []),
  ];
  return all.length < 2 ? all.join('') : `${all.slice(0, -1).join(', ')} and ${all.at(-1)!}`;
};

/** Zone tables. */
export const tableWording: Wording<keyof TableFindings> = {
  'table-spreadsheet': () =>
    words('This is the file of a spreadsheet program, not a table as plain text.', saveAgain),
  'table-not-text': () => words('This is not a table: it holds signs that no text has.', saveAgain),
  'table-too-large': ({ limit }) =>
    words(
      `The table is larger than this tool takes on: ${formatBytes(limit)}, or about four million cells.`,
      'Split it into a table for each instrument.',
    ),
  'table-quote-open': () =>
    words(
      'A quotation mark opens here and is never closed, so the rest of the table cannot be told apart.',
      'Close it, or take it away; a quotation mark inside a quoted cell is written twice.',
    ),
  'table-quote-inside': () =>
    words(
      'A quotation mark stands in the middle of a cell, so where the cell ends is not certain.',
      'Put the whole cell in quotation marks and write the one inside twice, or take it away.',
    ),
  'table-empty': () =>
    words('The table is empty.', 'Export it again; the export or the copy did not finish.'),
  'table-only-heading': () =>
    words(
      'The table has one row only, so there are no zones under its headings.',
      'Write a row for each zone or articulation under a first row of headings.',
    ),
  'table-encoding': () =>
    words(
      'The table is not saved as UTF-8, so it was read as Western European text (Windows-1252); names with accents may be wrong.',
      'Look at the names in the report. If they are wrong, save the table as CSV (UTF-8).',
    ),
  'table-column-missing': ({ column, present, likely, meant }) =>
    words(
      present.length === 0
        ? `The table has no headings, and a column is needed: ${printable(column)}.`
        : `A column is missing: ${printable(column)}. The table has ${list(present)}.`,
      likely !== null
        ? `The heading "${printable(likely)}" may mean it; if it does, call it "${printable(meant)}".`
        : column === 'keys'
          ? present.some((name) => name.toLowerCase() === 'key')
            ? 'A column "key" gives rows their names; if yours holds the keys of a zone, call it "keys".'
            : 'Add a column "keys" with the keys each zone sounds on, such as C2-E2, 36-40 or "C2..C6 every 3".'
          : 'Add one of these columns, so that the memory of a sample is known.',
    ),
  'table-column-twice': ({ column }) =>
    words(
      `The column "${printable(column)}" is there twice, so which one counts is not certain.`,
      'Rename or take away one of the two.',
    ),
  'table-columns-unknown': ({ columns, more }) =>
    words(
      columns.length + more === 1
        ? `The column ${list(columns, more)} is not one that a zone table has; it was skipped.`
        : `The columns ${list(columns, more)} are not ones that a zone table has; they were skipped.`,
      nothingToDo,
    ),
  'table-column-near': ({ column, near }) =>
    words(
      `The column "${printable(column)}" is not one that a zone table has; it was skipped.`,
      `Did you mean "${printable(near)}"?`,
    ),
  'table-cells-beyond': ({ value, headings }) =>
    words(
      `The row goes on behind the last of its ${plural(headings, 'heading')}, with "${printable(value)}", so its cells may stand under the wrong ones.`,
      'Put a cell that holds a comma or semicolon of its own in quotation marks, or add the heading.',
    ),
  'table-cell': ({ column, value }) =>
    words(
      `The column "${printable(column)}" holds "${printable(value)}" here, which cannot be read.`,
      ways[column] ?? 'Change the cell or leave it empty.',
    ),
  'table-microphones-divided': ({ value, instead }) =>
    words(
      `The column "microphone" holds "${printable(value)}" here; a comma or semicolon divides no names, so these would count as one.`,
      `Put | between the names: ${printable(instead)}.`,
    ),
  'table-microphones-counted': ({ value }) =>
    words(
      `The column "microphone" holds the number "${printable(value)}" here, and microphones go by their names.`,
      'Name each one with | between them, such as close|tree.',
    ),
  'table-cell-missing': ({ column }) =>
    words(
      `The row has nothing in the column "${printable(column)}".`,
      ways[column] ?? 'Fill in the cell.',
    ),
  'table-name-too-long': ({ column, length, limit }) =>
    words(
      `The name in the column "${printable(column)}" is ${plural(length, 'character')} long; ${formatCount(limit)} are the most.`,
      'Shorten it. If a quotation mark is out of place, the cell may have swallowed others.',
    ),
  'table-never-sounds': ({ column, value }) =>
    words(
      `No note can meet "${printable(value)}" in the column "${printable(column)}", so the zone would never sound.`,
      column === 'velocities'
        ? 'Begin at velocity 1; velocity 0 ends a note.'
        : 'Put | instead of & between values of one controller of which either will do.',
    ),
  'table-size-missing': ({ columns }) =>
    words(
      'The row does not say how large its samples are.',
      `Fill in one of ${list(columns)}: the size of each single sample, not of the whole row.`,
    ),
  'table-size-twice': ({ columns }) =>
    words(
      `The row says how large its samples are in several ways: ${list(columns)}.`,
      'Keep the one that is right for the memory and leave the others empty.',
    ),
  'table-sample-too-large': ({ value, limit }) =>
    words(
      `A sample of "${printable(value)}" would be larger than ${formatBytes(limit)}, which no player loads.`,
      'Check the figure and its unit.',
    ),
  'table-sample-count': ({ samples, zones }) =>
    words(
      `The row names ${plural(samples, 'sample')} and stands for ${plural(zones, 'zone')}: keys, velocities, controllers, takes and microphones multiplied.`,
      'Name one sample for all of them, or one for each; or leave the cell empty.',
    ),
  'table-sample-differs': ({ sample, bytes, other, line }) =>
    words(
      `The sample "${printable(sample)}" is ${formatCount(bytes)} bytes here and ${formatCount(other)} in line ${String(line)}.`,
      'Give it one size, or two names if they are two samples.',
    ),
  'table-key-twice': ({ key, line }) =>
    words(
      `Another row, line ${String(line)}, is called "${printable(key)}" already.`,
      'Give each row a key of its own, or leave the cell empty.',
    ),
  'table-switch-alone': ({ switch: selector }) =>
    words(
      `The row has the switch "${printable(selector)}" and no articulation that it could call up.`,
      'Name the articulation, or leave the switch empty for what sounds with all of them.',
    ),
  'table-switch-differs': ({ articulation, switch: selector, other, line }) =>
    words(
      `The switch of "${printable(articulation)}" is "${printable(selector)}" here and "${printable(other)}" in line ${String(line)}.`,
      'Write the switch once and leave the other rows empty, or give the articulations two names.',
    ),
  'table-too-many-zones': ({ zones, limit }) =>
    words(
      `With this row the table comes to ${plural(zones, 'zone')}; ${formatCount(limit)} are the most.`,
      'Check the lists of the row, as they multiply, or split the table into several instruments.',
    ),
  'table-assumed': ({ rows, rate, bits, channels }) => {
    const parts = [
      ...(rate > 0 ? [`48 000 frames a second in ${plural(rate, 'row')}`] : []),
      ...(bits > 0 ? [`24 bits in ${plural(bits, 'row')}`] : []),
      ...(channels > 0 ? [`stereo in ${plural(channels, 'row')}`] : []),
    ];
    return words(
      `${plural(rows, 'row')} ${rows === 1 ? 'does' : 'do'} not say all that memory depends on; assumed: ${parts.join(', ')}.`,
      'Add the columns "rate", "bits" and "channels" if the samples are otherwise.',
    );
  },
  'table-wide-zones': ({ zones, limit, lo, hi, from, to }) => {
    const keys = `${printable(from)}..${printable(to)}`;
    return words(
      `${plural(zones, 'zone')} ${zones === 1 ? 'stretches' : 'stretch'} one sample over more than ${formatCount(limit)} keys; the widest over ${formatCount(hi - lo + 1)}: ${printable(from)}-${printable(to)} (${String(lo)}-${String(hi)}).`,
      `If each key has a sample of its own, write "${keys} every 1"; if every third has, "${keys} every 3". Otherwise the memory comes out far too small.`,
    );
  },
  'table-velocity-gap': ({ lo, hi, within, more }) =>
    words(
      `No layer answers ${lo === hi ? `velocity ${String(lo)}` : `velocities ${String(lo)}-${String(hi)}`}, between two layers of ${within === 'row' ? 'this row' : 'the same articulation and keys'}${more > 0 ? `; the table has ${plural(more, 'more gap')} of this kind` : ''}.`,
      'Begin each layer one above the end of the one below, such as 1-40|41-127, unless the gap is meant.',
    ),
  'table-no-switch': ({ articulations, more }) =>
    words(
      `The articulations ${list(articulations, more)} have no switch, so the cues cannot tell which of them plays; all of them count as needed, in doubt.`,
      'Name the articulation in each route, or fill in the column "switch".',
    ),
  'table-always-sounds': ({ articulations, more }) =>
    words(
      articulations.length + more === 1
        ? `The articulation ${list(articulations, more)} has no switch while others have one; it counts as sounding always.`
        : `The articulations ${list(articulations, more)} have no switch while others have one; they count as sounding always.`,
      'Fill in their switch if something does call them up.',
    ),
  'table-switch-shared': ({ articulations, more }) =>
    words(
      `Some of the articulations ${list(articulations, more)} have the same switch or a part of it; they count as sounding together.`,
      'Check the column "switch" if that is not meant.',
    ),
  'table-switch-plays': ({ keys, more }) =>
    words(
      keys.length + more === 1
        ? `Every zone lies over the keyswitch ${list(keys)} too, so that key counts as switching and as playing.`
        : `Every zone lies over the keyswitches ${list(keys, more)} too, so those keys count as switching and as playing.`,
      'End the keys of the zones where the keyswitches begin, if those are silent.',
    ),
};
