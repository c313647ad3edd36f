import {
  isCollection,
  isMap,
  isNode,
  isPair,
  isSeq,
  parseDocument,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import type { Addition } from './addition.ts';
import { appendInFlow } from './append-in-flow.ts';
import { insert, insertLines, type Insertion } from './insertion.ts';

/** What is added to a template. */
export interface Additions {
  readonly instruments: readonly Addition[];
  readonly routes: readonly Addition[];
}

const usualIndent = 2;

const columnOf = ({ srcToken }: YAMLMap | YAMLSeq): number =>
  srcToken !== undefined && 'indent' in srcToken ? srcToken.indent : 0;

/** Where the last thing in a block ends; what the library counts to a block may go on behind it. */
const endOf = (node: unknown): number => {
  const [last] = isCollection(node) && node.flow !== true ? node.items.slice(-1) : [];
  if (last !== undefined) return endOf(isPair(last) ? (last.value ?? last.key) : last);
  return isNode(node) ? (node.range?.[1] ?? 0) : 0;
};

/** The start of the next line, unless a line starts there. */
const nextLine = (text: string, at: number): number => {
  if (text[at - 1] === '\n') return at;
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end + 1;
};

/** Behind the comments that follow the last item, further in than it: they are about it. */
const behindComments = (text: string, from: number, indent: number): number => {
  const line = /( *)#[^\n]*(?:\n|$)/y;
  line.lastIndex = from;
  let at = from;
  for (let found = line.exec(text); found !== null; found = line.exec(text)) {
    if (found[1]!.length <= indent) break;
    at = line.lastIndex;
  }
  return at;
};

const append = (
  text: string,
  collection: YAMLMap | YAMLSeq,
  additions: readonly Addition[],
): readonly Insertion[] => {
  if (additions.length === 0) return [];
  if (collection.flow === true) return appendInFlow(text, collection, additions);
  const indent = columnOf(collection);
  const at = behindComments(text, nextLine(text, endOf(collection)), indent);
  const lines = additions.flatMap(({ inBlock }) => inBlock(indent));
  return [insertLines(text, at, lines)];
};

/** A key that is not there yet, with all it holds. */
const newKey = (key: string, brackets: string, additions: readonly Addition[]): Addition => {
  const [open = '', close = ''] = brackets;
  return {
    comments: additions.flatMap(({ comments }) => comments),
    inFlow: `${key}: ${open} ${additions.map(({ inFlow }) => inFlow).join(', ')} ${close}`,
    inBlock: (indent) => [
      '',
      `${' '.repeat(indent)}${key}:`,
      ...additions.flatMap(({ inBlock }) => inBlock(indent + usualIndent)),
    ],
  };
};

/**
 * Adds instruments and routes at the end of those that a template has. All the rest stays as it is,
 * byte for byte: comments, quotes, order, line ends.
 *
 * @param text a template that can be read
 */
export const appendToYaml = (text: string, { instruments, routes }: Additions): string => {
  const { contents } = parseDocument(text, {
    keepSourceTokens: true,
    // Was checked by the reader, in less time than the square of the number of keys.
    uniqueKeys: false,
  });
  if (!isMap(contents)) throw new Error('a template that was read holds no keys');
  const insertions: Insertion[] = [];
  const missing: Addition[] = [];
  for (const [key, brackets, additions] of [
    ['instruments', '{}', instruments],
    ['routes', '[]', routes],
  ] as const) {
    const there = contents.get(key);
    if (isMap(there) || isSeq(there)) insertions.push(...append(text, there, additions));
    else if (additions.length > 0) missing.push(newKey(key, brackets, additions));
  }
  return insert(text, [...insertions, ...append(text, contents, missing)]);
};
