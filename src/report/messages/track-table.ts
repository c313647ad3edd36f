import type { RouteFindings } from '../../terms/findings/routes.ts';
import { printable } from '../../terms/printable.ts';
import { formatCount, plural } from '../format.ts';
import { words, type Wording } from './words.ts';

const saveAgain = 'In the spreadsheet, save the sheet as CSV (UTF-8) and give that file.';

/** Why the file is no table. */
const reasons: Readonly<Record<string, readonly [string, string]>> = {
  'quote-open': [
    'A quotation mark opens here and is never closed, so the rest of the table of tracks cannot be told apart.',
    'Close it, or take it away; a quotation mark inside a quoted cell is written twice.',
  ],
  'quote-inside': [
    'A quotation mark stands in the middle of a cell, so where the cell ends is not certain.',
    'Put the whole cell in quotation marks and write the one inside twice, or take it away.',
  ],
  'too-large': [
    'The table of tracks is larger than this tool takes on: 64 MiB, or about four million cells.',
    'Take out what does not belong to the tracks.',
  ],
  binary: ['This is not a table: it holds signs that no text has.', saveAgain],
};

/** What belongs in a cell, and how it is written. */
const contents: Readonly<Record<string, readonly [string, string]>> = {
  number: ['a number', 'Write digits only, or leave the cell empty.'],
  controllers: [
    'controllers',
    'Write pairs such as 11:1 | 2:11, each controller once; if the spreadsheet made a time of it, format the column as text and type it again.',
  ],
  'yes-no': ['yes or no', 'Write yes or no, or leave the cell empty for no.'],
  instruments: ['instruments', 'Write the name of an instrument, or several with | between them.'],
};

const quoted = (text: string): string => `"${printable(text)}"`;

const list = (texts: readonly string[]): string => texts.map(quoted).join(', ');

/** The table of tracks. */
export const trackTableWording: Wording<Extract<keyof RouteFindings, `tracks-${string}`>> = {
  'tracks-unreadable': ({ problem }) => {
    const [message, hint] = reasons[problem] ?? [
      `The table of tracks cannot be read (${printable(problem)}).`,
      saveAgain,
    ];
    return words(message, hint);
  },
  'tracks-encoding': () =>
    words(
      'The table of tracks is not saved as UTF-8; accents in it were read as Windows programs write them.',
      'If names with accents are not found in the cues, save the table again as CSV (UTF-8).',
    ),
  'tracks-empty': () =>
    words(
      'The table of tracks has no rows with tracks.',
      'Write a row for each track below the headings, or take the table out of the template.',
    ),
  'tracks-too-many': ({ rows, limit }) =>
    words(
      `The table of tracks has ${plural(rows, 'row')}; at most ${formatCount(limit)} can be used.`,
      'Write one row for many tracks: "Vln*" is every track whose name begins so.',
    ),
  'tracks-renaming': ({ column, near }) =>
    words(
      `There is no column ${quoted(column)} that could be called otherwise in the table of tracks.`,
      near === null
        ? 'The columns are track, cue, port, channel, instrument, articulation, join, transpose, velocity, controllers, printed and ignore.'
        : `Did you mean ${printable(near)}?`,
    ),
  'tracks-heading-missing': ({ column, heading, present }) =>
    words(
      `The table of tracks has no column ${quoted(heading)}${
        heading === column ? '' : `, which is to hold the ${printable(column)}`
      }. Its headings are ${present.length === 0 ? 'empty' : list(present)}.`,
      `Headings stand in the first row; if the column is called otherwise, say so with columns: { ${printable(column)}: "its heading" } beside the table.`,
    ),
  'tracks-heading-twice': ({ heading }) =>
    words(
      `The table of tracks has two columns ${quoted(heading)}, so which one counts is not certain.`,
      'Give one of them another heading.',
    ),
  'tracks-heading-near': ({ heading, near }) =>
    words(
      `The column ${quoted(heading)} of the table of tracks means nothing here and was not used.`,
      `Did you mean ${printable(near)}?`,
    ),
  'tracks-headings-unknown': ({ headings, more }) =>
    words(
      `${plural(headings.length + more, 'column')} of the table of tracks ${
        headings.length + more === 1 ? 'means' : 'mean'
      } nothing here and ${headings.length + more === 1 ? 'was' : 'were'} not used: ${list(headings)}${
        more > 0 ? ` and ${formatCount(more)} more` : ''
      }.`,
      'Nothing needs to be done.',
    ),
  'tracks-cell': ({ column, cell, expects }) => {
    const [what, hint] = contents[expects] ?? [printable(expects), 'Write it in another way.'];
    return words(
      `The cell ${quoted(cell)} in the column ${printable(column)} cannot be read as ${what}.`,
      hint,
    );
  },
  'tracks-cell-extra': ({ cell }) =>
    words(
      `The cell ${quoted(cell)} has no heading above it.`,
      'If the row has slipped, put names with a comma or a semicolon in quotation marks; if it is a remark, give its column a heading.',
    ),
  'tracks-more-errors': ({ more }) =>
    words(
      `The table of tracks has ${formatCount(more)} more mistakes that are not listed.`,
      'Mend those that are listed first.',
    ),
};
