import { doubtNames } from '../../../src/terms/doubt.ts';

/** Under these a result holds names that come from files, or lists of them. */
const named = new Set([
  ...['id', 'name', 'machine', 'instrument', 'copy', 'player', 'from', 'to', 'cue', 'file'],
  ...['source', 'path', 'track', 'sample', 'samples', 'articulation', 'articulationNames'],
  ...['copies', 'text'],
]);

/** Words of ours that stand there too. */
const ours = new Set<string>([...doubtNames, 'sample', 'layer', 'articulation', 'instrument']);

/** A change of all names in a result: equal ones stay equal, the others take turns. */
export const renaming = (names: readonly string[]): (<T>(value: T) => T) => {
  const known = new Map<string, string>();
  const rename = (name: string): string => {
    if (ours.has(name)) return name;
    const own = known.get(name) ?? names[known.size % names.length] ?? '';
    known.set(name, own);
    return own;
  };
  const change = (one: unknown, key: string): unknown => {
    if (typeof one === 'string') return named.has(key) ? rename(one) : one;
    if (Array.isArray(one)) return one.map((item) => change(item, key));
    if (typeof one !== 'object' || one === null) return one;
    return Object.fromEntries(
      Object.entries(one).map(([name, item]) => [name, change(item, name)]),
    );
  };
  return <T>(value: T): T => change(value, '') as T;
};
