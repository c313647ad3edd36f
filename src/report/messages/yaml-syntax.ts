import { printable } from '../../terms/printable.ts';
import { words, type Wording, type Words } from './words.ts';

const quoted = (text: string): string => `"${printable(text)}"`;

/** What each slip in the writing is: what stands there, and how it is mended. */
const slips: Readonly<Record<string, (text: string) => Words>> = {
  tab: () =>
    words(
      'This line is indented with a tab; only spaces can be used for that.',
      'Replace each tab at the start of a line with two spaces.',
    ),
  indent: (text) =>
    words(
      `The line ${quoted(text)} starts in a column that fits neither the lines above it nor a new level.`,
      'Let keys of one level start in the same column, and give those within them two more spaces.',
    ),
  'question-mark': () =>
    words(
      'A question mark by itself has to be in quotation marks.',
      'Write "?" with the quotation marks; in an outline that is what is not known yet.',
    ),
  'dash-space': (text) =>
    words(
      `The dash has no space behind it: ${quoted(text)}.`,
      'Begin each item of a list with a dash and a space.',
    ),
  'quote-open': (text) =>
    words(
      `A quotation mark opens here and is never closed: ${quoted(text)}.`,
      'Put the same quotation mark at the end of the text.',
    ),
  'bracket-open': (text) =>
    words(
      `A bracket opens here and is never closed: ${quoted(text)}.`,
      'Put the closing bracket at its end: every { needs its }, every [ its ].',
    ),
  'bracket-extra': (text) =>
    words(
      `There is a closing bracket too many: ${quoted(text)}.`,
      'Take it out, or put the opening one where it belongs.',
    ),
  'comma-missing': (text) =>
    words(
      `A comma is missing between two values near ${quoted(text)}.`,
      'Between brackets divide values by commas, as in { memory: 64 GiB, reserve: 12 GiB } or [1m1, 1m2]. A value that itself holds a colon and a space has to be in quotation marks, as in { switch: "cc 32: 0-20" }.',
    ),
  'colon-in-text': (text) =>
    words(
      `A colon with a space behind it, between brackets and without quotation marks, begins a new value: ${quoted(text)}.`,
      `Put the whole text in quotation marks: ${quoted(text)}.`,
    ),
  'comma-extra': () =>
    words('There is a comma too many, with no value before it.', 'Take the comma out.'),
  'colon-missing': (text) =>
    words(
      `The key ${quoted(text)} has no colon and space behind it.`,
      'Write a key, a colon, a space and the value, as in "middle-c: C4".',
    ),
  'colon-twice': (text) =>
    words(
      `There is a second colon with a space on this line: ${quoted(text)}.`,
      'Put a text that holds a colon in quotation marks, or what belongs below the key on a line of its own.',
    ),
  start: (text) =>
    words(
      `A text cannot begin like this without quotation marks: ${quoted(text)}.`,
      'Put the whole text in quotation marks, as in track: "@ Vln 1".',
    ),
  'after-value': (text) =>
    words(
      `There is more after the end of a value: ${quoted(text)}.`,
      'Put the whole text in quotation marks, as in track: "Vc {art}"; or take out what does not belong there.',
    ),
  'comment-close': () =>
    words(
      'The sign # stands right behind a value.',
      'Put a space before it if a remark begins here, or the whole text in quotation marks if it belongs to a name.',
    ),
  escape: (text) =>
    words(
      `A backslash in double quotation marks has a meaning of its own, and there is none for ${quoted(text)}.`,
      'Use single quotation marks; and write paths with /, as in banks/keys.sf2.',
    ),
  'key-long': () =>
    words(
      'The text before this colon is too long to be a key.',
      'Check whether a quotation mark or a line break is missing before it.',
    ),
  documents: () =>
    words(
      'A second document begins here; this file has to be one document.',
      'Take out the line with --- or keep the second part in a file of its own.',
    ),
  control: () =>
    words(
      'There is a sign here that no text has, so this may not be the file that was meant.',
      'Take it out, or copy the file again from its source.',
    ),
};

/** What else YAML knows that is not for this file. */
const shorthands: Readonly<Record<string, (text: string) => Words>> = {
  alias: (text) =>
    words(
      `A text that begins with * has to be in quotation marks here: ${quoted(text)}.`,
      `Write "${printable(text)}" with the quotation marks if it is a name or a pattern. References to another place in the file cannot be used; write out what they stand for.`,
    ),
  anchor: (text) =>
    words(
      `A text that begins with & has to be in quotation marks here: ${quoted(text)}.`,
      'Put it in quotation marks if it is a name. Marks for references cannot be used; take it out and write each value in full.',
    ),
  tag: (text) =>
    words(
      `A text that begins with ! has to be in quotation marks here: ${quoted(text)}.`,
      'Put it in quotation marks if it is a name, else take it out.',
    ),
  merge: () =>
    words(
      'Keys cannot be taken over from another place with <<.',
      'Write the keys here in full. A template has defaults for many instruments alike, an outline has like for one articulation as another.',
    ),
  directive: (text) =>
    words(
      `A line that begins with % is an instruction to the reader of the file, and there are none here: ${quoted(text)}.`,
      'Take the line out; put # before it if it is a remark.',
    ),
};

/** How a template or an outline is written, before what it says. */
export const yamlSyntaxWording: Wording<'yaml-syntax' | 'yaml-shorthand' | 'yaml-encoding'> = {
  'yaml-syntax': ({ reason, text }) =>
    slips[reason]?.(text) ??
    words(
      `This cannot be read as YAML near ${quoted(text)}.`,
      'Compare with the lines above: a key, a colon, a space and the value; texts with signs in them in quotation marks.',
    ),
  'yaml-shorthand': ({ kind, text }) =>
    shorthands[kind]?.(text) ??
    words(`This cannot stand in this file: ${quoted(text)}.`, 'Take it out.'),
  'yaml-encoding': ({ encoding }) =>
    words(
      encoding === 'utf-16'
        ? 'The file is saved as UTF-16.'
        : 'The file is not saved as UTF-8: what stands here is no letter in it.',
      'Open it in the editor it was written with and save it as UTF-8.',
    ),
};
