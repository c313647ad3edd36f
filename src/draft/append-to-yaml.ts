import { isMap, isSeq, parseDocument, type YAMLMap, type YAMLSeq } from 'yaml';
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

const append = (
  text: string,
  collection: YAMLMap | YAMLSeq,
  additions: readonly Addition[],
): readonly Insertion[] => {
  if (additions.length === 0) return [];
  if (collection.flow === true) return appendInFlow(text, collection, additions);
  const lines = additions.flatMap(({ inBlock }) => inBlock(columnOf(collection)));
  return [insertLines(text, collection.range?.[1] ?? text.length, lines)];
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
