import type { SfzFindings } from '../../terms/findings/sfz.ts';
import { printable } from '../../terms/printable.ts';
import { formatBytes, formatCount, plural } from '../format.ts';
import { words, type Wording } from './words.ts';

const nothingToDo = 'Nothing needs to be done.';
const askMaker =
  'If the instrument came like this, ask its maker; if it was edited, go back to the original.';

const quoted = (text: string): string => `"${printable(text)}"`;

/** How often, where it was more than once. */
const often = (times: number): string => (times === 1 ? '' : ` (${formatCount(times)} times)`);

/** What there is too much of. */
const amounts: Readonly<Record<string, (limit: number) => string>> = {
  text: (limit) => `text than ${formatBytes(limit)}, included files counted each time`,
  includes: (limit) => `than ${plural(limit, 'included file')}`,
  depth: (limit) => `than ${plural(limit, 'file')} that include one another in a row`,
  path: (limit) => `than ${plural(limit, 'character')} in the path of an included file`,
  headers: (limit) => `than ${plural(limit, 'header')}`,
  opcodes: (limit) => `than ${plural(limit, 'opcode')}`,
  regions: (limit) => `than ${plural(limit, 'region')}`,
  inherited: (limit) =>
    `than ${plural(limit, 'opcode')} in its regions, with those they take over from their groups`,
  variables: (limit) => `than ${plural(limit, 'variable')}`,
  'variable-name': (limit) => `than ${plural(limit, 'character')} in the name of a variable`,
  value: (limit) => `than ${plural(limit, 'character')} in one name or value`,
  expansion: (limit) => `than ${plural(limit, 'character')} put in by its variables`,
};

/** SFZ instruments. */
export const sfzWording: Wording<keyof SfzFindings> = {
  'sfz-not-text': () =>
    words(
      'This is not an SFZ file: it holds signs that no text has.',
      'Give the .sfz file itself, which is text; if it is, save it as UTF-8.',
    ),
  'sfz-too-large': ({ what, limit }) =>
    words(
      `The instrument has more ${amounts[what]?.(limit) ?? printable(what)}, which is more than this tool takes on.`,
      'Split the instrument into smaller ones, or check that the file is not damaged here.',
    ),
  'sfz-include-missing': ({ path }) =>
    words(
      `The file ${quoted(path)} that is included here is missing, and the regions in it are unknown.`,
      'Copy the missing file too; its path starts at the folder of the instrument that was opened.',
    ),
  'sfz-include-cycle': ({ chain }) =>
    words(
      `The files include one another without end: ${chain.map(quoted).join(' includes ')}.`,
      'Take away the last of these includes.',
    ),
  'sfz-comment-open': () =>
    words(
      'A comment opens here and is never closed, so the rest of the file cannot be told apart from it.',
      'Write */ where the comment ends, or take its /* away.',
    ),
  'sfz-variable-endless': ({ text }) =>
    words(
      `The variables in ${quoted(text)} stand for one another without end.`,
      'Give one of them a value of its own in its #define.',
    ),
  'sfz-encoding': ({ encoding, times }) =>
    words(
      encoding === 'utf-16'
        ? `${times === 1 ? 'This file is' : `This file and others (${formatCount(times)} in all) are`} saved as UTF-16; some players cannot read that.`
        : `${times === 1 ? 'This file is' : `This file and others (${formatCount(times)} in all) are`} not saved as UTF-8, so Western European text (Windows-1252) was assumed; names with accents may be wrong.`,
      'If samples are not found, save the file as UTF-8.',
    ),
  'sfz-header-unknown': ({ header, times }) =>
    words(
      `The header <${printable(header)}> is not known${often(times)}; what stands under it was left out.`,
      'Check its spelling: headers are written in small letters, such as <region>.',
    ),
  'sfz-line-skipped': ({ text, times }) =>
    words(
      `This is neither a header nor an opcode, and the rest of its line was skipped${often(times)}: ${quoted(text)}.`,
      'Put // before it if it is a comment. An opcode is written name=value, without blanks around the equals sign.',
    ),
  'sfz-directive-broken': ({ text, times }) =>
    words(
      `This is not a whole #define or #include, and the rest of its line was skipped${often(times)}: ${quoted(text)}.`,
      'Write #include "file.sfz" with straight quotation marks, or #define $name value.',
    ),
  'sfz-slash-line': ({ text, times }) =>
    words(
      `A line starts with a single slash and was read as a comment${often(times)}: ${quoted(text)}.`,
      'Put a second slash before it; players differ in what they make of it.',
    ),
  'sfz-outside-header': ({ opcode, times }) =>
    words(
      `The opcode ${quoted(opcode)} stands before the first header and was left out${often(times)}.`,
      'Put it under <global> if it is meant for all regions.',
    ),
  'sfz-no-regions': () =>
    words(
      'The instrument holds no <region>, so there is nothing that could play.',
      'If it lives in another file, name that one; else look for a header that is misspelt.',
    ),
  'sfz-opcodes-unknown': ({ names, more }) =>
    words(
      `Opcodes that are not known were left aside: ${names.map(quoted).join(', ')}${more === 0 ? '' : ` and ${formatCount(more)} more`}.`,
      'Look for a slip of the pen: what a region asks for may be lost with it.',
    ),
  'sfz-variable-unknown': ({ variable, times }) =>
    words(
      `The variable ${quoted(variable)} is not defined up to here, so nothing was put in its place${often(times)}.`,
      'Put its #define before this line, or include the file that holds it.',
    ),
  'sfz-blank-value': ({ opcode, times }) =>
    words(
      `A blank stands before the value of ${quoted(opcode)}${often(times)}; it was skipped, but some players then leave the whole opcode out.`,
      'Take away the blank behind the equals sign.',
    ),
  'sfz-include-outside': ({ path, times }) =>
    words(
      `The included file ${quoted(path)} lies outside the folder of the instrument${often(times)}; it was read.`,
      `${nothingToDo} Only take it along when the instrument is copied elsewhere.`,
    ),
  'sfz-include-case': ({ path, found, times }) =>
    words(
      `The included file ${quoted(path)} is named ${quoted(found)} on this disk${often(times)}; the two differ in capitals or accents, and it was read all the same.`,
      'Write its name as it is on the disk, since some players will not find it.',
    ),
  'sfz-embedded-broken': ({ sample, times }) =>
    words(
      `The sound inside the file${sample === '' ? '' : ` that is called ${quoted(sample)}`} could not be taken out of it${often(times)}, so its memory is not counted.`,
      askMaker,
    ),
  'sfz-remarks-more': ({ remarks }) =>
    words(
      `${plural(remarks, 'more remark')} of these kinds ${remarks === 1 ? 'was' : 'were'} left out.`,
      'Look at the ones above first; the others are of the same kinds.',
    ),
};
