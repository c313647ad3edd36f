import { endOfBlanks, isBlank, isLineEnd } from '../../instruments/sfz/text/characters.ts';
import type { SfzDocument } from '../../instruments/sfz/text/document.ts';
import { endOfLineEnd } from './between.ts';
import type { Cut } from './cuts.ts';
import { inOrder, type Edit } from './edit.ts';
import { lineEndOf } from './line-end.ts';

/**
 * The changes to the text of each inclusion that has some, ascending. A cut that leaves nothing on its
 * lines takes them with it; what it leaves on one line stays apart by one blank.
 */
export const tidyEdits = (
  { files, inclusions }: SfzDocument,
  cuts: ReadonlyMap<number, readonly Cut[]>,
  silences: ReadonlyMap<number, readonly Edit[]>,
): ReadonlyMap<number, readonly Edit[]> => {
  const edits = new Map(silences);
  for (const [inclusion, ofFile] of cuts) {
    const { text } = files[inclusions[inclusion]!.file]!;
    const tidied = tidy(text, ofFile);
    edits.set(inclusion, inOrder([...(silences.get(inclusion) ?? []), ...tidied]));
  }
  return edits;
};

const tidy = (text: string, cuts: readonly Cut[]): readonly Edit[] => {
  const edits: Edit[] = [];
  /** Where the last lines that went ended, if nothing but an empty line stands in front of them. */
  let openTo = -1;
  for (const { start, end, behindOpenDefine } of joined(text, cuts)) {
    const from = startOfBlanks(text, start);
    const to = endOfBlanks(text, end);
    const opensLine = isLineStart(text, from);
    const endsLine = to >= text.length || isLineEnd(text.charCodeAt(to));
    if (opensLine && endsLine) {
      const isOpen = from === openTo || isBehindEmptyLine(text, from);
      const next = to >= text.length ? to : endOfLineEnd(text, to);
      const rest = isOpen ? endOfEmptyLines(text, next) : next;
      edits.push({ start: from, end: rest, put: '' });
      if (isOpen) openTo = rest;
    } else if (opensLine) edits.push({ start, end: to, put: '' });
    else if (endsLine) edits.push({ start: from, end: to, put: '' });
    else edits.push({ start: from, end: to, put: behindOpenDefine ? lineEndOf(text) : ' ' });
  }
  return edits;
};

/** Cuts with nothing but blanks between them as one. */
const joined = (text: string, cuts: readonly Cut[]): readonly Cut[] => {
  const all: Cut[] = [];
  for (const cut of cuts) {
    const last = all.at(-1);
    if (last !== undefined && endOfBlanks(text, last.end) >= cut.start) {
      all[all.length - 1] = { ...last, end: cut.end };
    } else all.push(cut);
  }
  return all;
};

const startOfBlanks = (text: string, from: number): number => {
  let at = from;
  while (at > 0 && isBlank(text.charCodeAt(at - 1))) at -= 1;
  return at;
};

const isLineStart = (text: string, at: number): boolean =>
  at === 0 || isLineEnd(text.charCodeAt(at - 1));

/** True at the start of the text and where the line in front is empty. */
const isBehindEmptyLine = (text: string, lineStart: number): boolean => {
  if (lineStart === 0) return true;
  const end = text.startsWith('\r\n', lineStart - 2) ? lineStart - 2 : lineStart - 1;
  return isLineStart(text, startOfBlanks(text, end));
};

const endOfEmptyLines = (text: string, from: number): number => {
  let at = from;
  for (;;) {
    const end = endOfBlanks(text, at);
    if (end >= text.length || !isLineEnd(text.charCodeAt(end))) return at;
    at = endOfLineEnd(text, end);
  }
};
