import * as v from 'valibot';
import type { YamlNode } from '../yaml/tree.ts';
import type { KnownKeys } from './vocabulary.ts';

/**
 * What may stand somewhere in a file, and the value it is read as. Issues bear what belongs
 * there as their message and `options` joined by `|` as what they expect.
 */
export type Shape<Value> = v.GenericSchema<YamlNode, Value>;

/**
 * A shape of one piece of the tree: `read` takes it, or returns null.
 *
 * @param expected what belongs there, as findings name it
 * @param options the values that can be, or the lowest and the highest
 */
export const piece = <Value>(
  expected: string,
  options: readonly (string | number)[],
  read: (node: YamlNode) => Value | null,
) =>
  v.pipe(
    v.custom<YamlNode>(() => true),
    v.rawTransform(({ dataset, addIssue, NEVER }): Value => {
      const value = read(dataset.value);
      if (value !== null) return value;
      addIssue({ message: expected, expected: options.join('|') });
      return NEVER;
    }),
  );

type Entries<Known extends KnownKeys> = Readonly<
  Record<
    keyof Known & string,
    | Shape<unknown>
    | v.OptionalSchema<Shape<unknown>, undefined>
    | v.ExactOptionalSchema<Shape<unknown>, undefined>
  >
>;

/**
 * The keys of one group, each with what may stand there. Keys that are not known are no issue here:
 * the library would stop at the first, and pass over some (`constructor`).
 */
export const group = <Known extends KnownKeys, const Shapes extends Entries<Known>>(
  _known: Known,
  entries: Shapes,
) =>
  v.pipe(
    piece('keys', [], (node) =>
      node.kind === 'map'
        ? (Object.fromEntries(node.entries.map(({ key, value }) => [key, value])) as v.InferInput<
            v.ObjectSchema<Shapes, undefined>
          >)
        : null,
    ),
    v.object(entries),
  );

export const list = <Value>(item: Shape<Value>) =>
  v.pipe(
    piece('list', [], (node) => (node.kind === 'list' ? [...node.items] : null)),
    v.array(item),
  );

/** One, or a list of them. */
export const oneOrMore = <Value>(item: Shape<Value>): Shape<readonly Value[]> => {
  const one = v.pipe(
    item,
    v.transform((value) => [value]),
  );
  const more = list(item);
  return v.lazy((node: unknown) => ((node as YamlNode).kind === 'list' ? more : one));
};

/**
 * Values by what people name them, in file order.
 *
 * @param key what the names can be
 */
export const named = <Key, Value>(key: v.GenericSchema<string, Key>, value: Shape<Value>) =>
  v.pipe(
    piece('keys', [], (node) =>
      node.kind === 'map'
        ? new Map(node.entries.map((entry) => [entry.key, entry.value] as const))
        : null,
    ),
    v.map(key, value),
  );
