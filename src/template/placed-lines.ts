import { isMap, isScalar, parseDocument, type ParsedNode, type YAMLMap } from 'yaml';

/** An instrument that goes to another machine. Both are ids of the template. */
export interface InstrumentMove {
  readonly instrument: string;
  readonly to: string;
}

/** What to write into a template, where its lines stand now. */
export interface PlacedLine {
  /** From 1. */
  readonly line: number;
  /** How many lines from there on give way to the text; 0: it goes behind the line, as one of its own. */
  readonly replaces: number;
  /** The first instrument that it is about. */
  readonly instrument: string;
  /** Without the line's end. */
  readonly text: string;
}

/** The lines of a template that say where instruments go, as they have to be after some moves. */
export const placedLines = (
  text: string,
  moves: readonly InstrumentMove[],
): readonly PlacedLine[] => {
  const lines = text.split(lineEnd);
  const starts = lineStarts(text);
  const told: PlacedLine[] = [];
  for (const edit of editsFor(text, moves)) {
    const { instrument, from, to, put } = edit;
    const first = lineOf(text, from);
    if (isNewLine(edit)) {
      told.push({ line: first - 1, replaces: 0, instrument, text: put.replace(lineEnd, '') });
      continue;
    }
    const last = lineOf(text, to);
    const before = told.at(-1);
    // Two in one line: the second goes into what the first has made of it.
    const shared = before !== undefined && before.replaces > 0 && endOf(before) === first;
    const begin = shared ? before.line : first;
    const done = text.slice(starts[begin - 1], starts[last - 1]! + lines[last - 1]!.length);
    const tail = done.length - (from - starts[begin - 1]!);
    const head = shared
      ? before.text.slice(0, before.text.length - tail)
      : done.slice(0, done.length - tail);
    const made = head + put + done.slice(done.length - tail + (to - from));
    if (shared) told.pop();
    told.push({
      line: begin,
      replaces: last - begin + 1,
      instrument: shared ? before.instrument : instrument,
      text: made,
    });
  }
  return told;
};

const endOf = ({ line, replaces }: PlacedLine): number => line + replaces - 1;

/** A key on a line of its own comes in. */
const isNewLine = ({ from, to, put }: Edit): boolean => from === to && put.search(lineEnd) >= 0;

const lineStarts = (text: string): readonly number[] => [
  0,
  ...[...text.matchAll(/\r\n|\r|\n/gu)].map((end) => end.index + end[0].length),
];

/**
 * A template after some moves: `machine` is set for each of the instruments, by a text in place of
 * another where the key is there. All the rest stays as it is, byte for byte.
 *
 * @param text a template that can be read, with all instruments of the moves
 */
export const placedText = (text: string, moves: readonly InstrumentMove[]): string =>
  applied(text, editsFor(text, moves));

const lineEnd = /\r\n|\r|\n/u;

const lineOf = (text: string, at: number): number => text.slice(0, at).split(lineEnd).length;

/** Text from `from` up to `to` that gives way to another. */
interface Edit {
  readonly from: number;
  readonly to: number;
  readonly put: string;
}

interface InstrumentEdit extends Edit {
  readonly instrument: string;
}

const applied = (text: string, edits: readonly Edit[]): string =>
  edits.reduceRight((all, { from, to, put }) => all.slice(0, from) + put + all.slice(to), text);

/** In the order of the text. */
const editsFor = (text: string, moves: readonly InstrumentMove[]): readonly InstrumentEdit[] => {
  // Was checked by the reader, in less time than the square of the number of keys.
  const { contents } = parseDocument(text, { uniqueKeys: false });
  const instruments = isMap(contents) ? contents.get('instruments', true) : undefined;
  if (!isMap<ParsedNode, ParsedNode | null>(instruments)) {
    throw new Error('a template that was read names no instruments');
  }
  const targets = new Map(moves.map(({ instrument, to }) => [instrument, written(to)]));
  return instruments.items
    .flatMap(({ key, value }) => {
      const instrument = idOf(key);
      const to = targets.get(instrument);
      return to === undefined || !isMap(value) ? [] : [{ instrument, ...editIn(text, value, to) }];
    })
    .sort((a, b) => a.from - b.from);
};

/** Sets `machine` in the entry of an instrument. */
const editIn = (text: string, entry: YAMLMap, to: string): Edit => {
  const there = entry.get('machine', true);
  if (isScalar(there) && there.range) {
    const [from, end] = there.range;
    // What the library counts to a text on lines of its own goes on to the next key.
    return { from, to: from + text.slice(from, end).trimEnd().length, put: to };
  }
  const start = entry.range![0];
  if (entry.flow !== true) {
    const line = Math.max(text.lastIndexOf('\n', start - 1), text.lastIndexOf('\r', start - 1)) + 1;
    const end = /\r\n|\r|\n/u.exec(text)?.[0] ?? '\n';
    return { from: line, to: line, put: `${text.slice(line, start)}machine: ${to}${end}` };
  }
  const [first] = entry.items;
  const value = first?.value as ParsedNode | null | undefined;
  const behind = value?.range[1];
  return behind === undefined
    ? { from: start + 1, to: start + 1, put: ` machine: ${to}` }
    : { from: behind, to: behind, put: `, machine: ${to}` };
};

/** Ids may be numbers: then they are what stands in the file. */
const idOf = (key: ParsedNode): string => {
  if (!isScalar(key)) return '';
  return typeof key.value === 'string' ? key.value : key.source;
};

/** Words that mean something else where they stand bare (YAML 1.2.2, section 10.3.2). */
const notText = /^(?:true|false|null)$/iu;

/** An id as a scalar. Ids hold nothing that does not print, so JSON's quotes do (YAML 1.2.2, 1.2). */
const written = (id: string): string =>
  /^[A-Za-z_][\w.-]*$/u.test(id) && !notText.test(id) ? id : JSON.stringify(id);
