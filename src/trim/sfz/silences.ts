import { isBlank, isLineEnd, lessThan } from '../../instruments/sfz/text/characters.ts';
import type { Header, SfzDocument } from '../../instruments/sfz/text/document.ts';
import { tokenAt } from './between.ts';
import { dataOpcode } from './cuts.ts';
import type { Edit } from './edit.ts';
import type { Fates } from './fates.ts';
import { lineEndOf } from './line-end.ts';

/** What a region plays that makes no sound. */
export const silence = ['sample', '*silence'] as const;

/** What is put in so that regions play nothing, by inclusion: behind their last opcodes. */
export const silencesOf = (
  { files, inclusions, headers }: SfzDocument,
  { ofHeader }: Fates,
): ReadonlyMap<number, readonly Edit[]> => {
  const edits = new Map<number, Edit[]>();
  headers.forEach((header, i) => {
    if (ofHeader[i] !== 'silenced') return;
    const { inclusion } = header.opcodes.at(-1) ?? header;
    const edit = silenced(files[inclusions[inclusion]!.file]!.text, header);
    const known = edits.get(inclusion);
    if (known === undefined) edits.set(inclusion, [edit]);
    else known.push(edit);
  });
  return edits;
};

/** Data ends with the next header only: what is put in behind it would become part of it. */
export const goesBeforeLast = ({ opcodes }: Header): boolean => opcodes.at(-1)?.name === dataOpcode;

const silenced = (text: string, header: Header): Edit => {
  const opcode = silence.join('=');
  const last = header.opcodes.at(-1)?.place ?? header.place;
  if (goesBeforeLast(header)) return { start: last.start, end: last.start, put: `${opcode} ` };
  const { start, kind } = tokenAt(text, last.end);
  const isJunk = kind === 'junk' && text.charCodeAt(start) !== lessThan;
  const behind = isJunk ? lineEndOf(text) : isDivided(text, last.end) ? '' : ' ';
  return { start: last.end, end: last.end, put: ` ${opcode}${behind}` };
};

/** What stands there ends a value by itself. */
const isDivided = (text: string, at: number): boolean => {
  const code = text.charCodeAt(at);
  return at >= text.length || isBlank(code) || isLineEnd(code) || code === lessThan;
};
