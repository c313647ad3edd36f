import * as v from 'valibot';
import { piece, type Shape } from '../../../notation/document/shape-of.ts';
import type { YamlNode } from '../../../notation/yaml/tree.ts';
import type { Place } from '../../../terms/finding.ts';

/** True for a `"?"`: somebody is still to find it out. */
export const isAsked = (node: YamlNode): boolean => node.kind === 'scalar' && node.value === '?';

/** True for what says that it is not known: a `"?"`, or nothing, written as `~` or `null`. */
export const isOpen = (node: YamlNode): boolean =>
  isAsked(node) || (node.kind === 'scalar' && node.value === null && node.text !== '');

const nothing = piece('open', [], () => ({})) satisfies Shape<object>;

/**
 * A shape that may be left open.
 *
 * @returns its value; null where it says that it is not known
 */
export const known = <Value>(shape: Shape<Value>): Shape<Value | null> => {
  const open: Shape<null> = v.pipe(
    nothing,
    v.transform(() => null),
  );
  return v.lazy((node: unknown): Shape<Value | null> => (isOpen(node as YamlNode) ? open : shape));
};

/** A key that may be left out: undefined then, and null where it is left open. */
export const maybe = <Value>(shape: Shape<Value>) => v.optional(known(shape));

/** How many `"?"` a file holds, and where the first is. Without recursion: files are deep at will. */
export const countAsked = (
  root: YamlNode,
): { readonly count: number; readonly first: Place | null } => {
  let count = 0;
  let first: Place | null = null;
  const waiting: YamlNode[] = [root];
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    const within =
      node.kind === 'list'
        ? node.items
        : node.kind === 'map'
          ? node.entries.map(({ value }) => value)
          : [];
    // Last first, so that they are met in the order of the file.
    for (let i = within.length - 1; i >= 0; i -= 1) waiting.push(within[i]!);
    if (!isAsked(node)) continue;
    count += 1;
    first ??= node.at;
  }
  return { count, first };
};
