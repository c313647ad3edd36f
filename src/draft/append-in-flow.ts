import { isNode, isPair, type YAMLMap, type YAMLSeq } from 'yaml';
import type { Addition } from './addition.ts';
import { comment } from './comment.ts';
import { lineEndOf, type Insertion } from './insertion.ts';

const usualIndent = 2;

/** Where an item of a list, or a key with its value, begins and ends. */
const extentOf = (item: unknown): readonly [start: number, end: number] => {
  const [first, last] = isPair(item) ? [item.key, item.value ?? item.key] : [item, item];
  return [isNode(first) ? (first.range?.[0] ?? 0) : 0, isNode(last) ? (last.range?.[1] ?? 0) : 0];
};

const lineStartOf = (text: string, at: number): number => text.lastIndexOf('\n', at - 1) + 1;

/** True when only blanks stand before `at` in its line. */
const beginsLine = (text: string, at: number): boolean =>
  text.slice(lineStartOf(text, at), at).trim() === '';

/** Where the comma behind the last item is; -1 where there is none. */
const commaIn = (text: string, from: number, to: number): number => {
  for (let at = from; at < to; at += 1) {
    if (text[at] === ',') return at;
    if (text[at] === '#') at = text.indexOf('\n', at);
  }
  return -1;
};

/**
 * What has to be put in for additions at the end of a list in brackets or of keys in braces: each on
 * a line of its own.
 */
export const appendInFlow = (
  text: string,
  collection: YAMLMap | YAMLSeq,
  additions: readonly Addition[],
): readonly Insertion[] => {
  const close = (collection.range?.[1] ?? 0) - 1;
  const [start, end] = extentOf(collection.items.at(-1));
  const isEmpty = collection.items.length === 0;
  const indent =
    !isEmpty && beginsLine(text, start) ? start - lineStartOf(text, start) : usualIndent;
  const lines = additions.flatMap(({ comments, inFlow }, i) => [
    ...comments.flatMap((line) => comment(line, indent)),
    `${' '.repeat(indent)}${inFlow}${i === additions.length - 1 ? '' : ','}`,
  ]);
  const lineEnd = lineEndOf(text);
  if (isEmpty) return [{ at: close, text: `${lineEnd}${lines.join(lineEnd)} ` }];
  const comma = commaIn(text, end, close);
  const separator = comma < 0 ? [{ at: end, text: ',' }] : [];
  // With the bracket on a line of its own, comments behind the last item stay with it.
  if (beginsLine(text, close)) {
    const at = lineStartOf(text, close);
    return [...separator, { at, text: `${lines.join(lineEnd)}${lineEnd}` }];
  }
  const at = comma < 0 ? end : comma + 1;
  return [...separator, { at, text: `${lineEnd}${lines.join(lineEnd)}` }];
};
