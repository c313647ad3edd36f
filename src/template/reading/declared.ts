import { nearest } from '../../notation/nearest.ts';
import { printable } from '../../terms/printable.ts';
import type { FindingArgs, Place } from '../../terms/finding.ts';
import type { Reader } from '../../notation/document/reader.ts';
import { shortened } from '../../notation/document/shortened.ts';
import type { YamlEntry } from '../../notation/yaml/tree.ts';

/** What people name themselves and refer to. */
export type Named = 'machine' | 'player' | 'instrument';

/** Of names of one or two letters every other is a slip away. */
const shortest = 3;

/** Names that are shown where one is not known. */
const most = 8;

/** The first few of many names, each at a length that fits. */
export const firstFew = (names: Iterable<string>): readonly string[] =>
  [...names].slice(0, most).map(shortened);

const oddity = (id: string): string | null => {
  if (id.trim() === '') return 'empty';
  if (printable(id) !== id) return 'unprintable';
  return id.trim() === id ? null : 'blanks';
};

/** Adds a fault for an id that people could not see or type as it is. */
export const checkId = ({ faults }: Reader, kind: Named, { key, at }: YamlEntry): void => {
  const reason = oddity(key);
  if (reason !== null) faults.add(at, 'template-id', () => ({ kind, id: shortened(key), reason }));
};

/** Adds a fault for an id that is used somewhere and not declared. */
export const checkDeclared = (
  { faults }: Reader,
  kind: Named,
  id: string,
  at: Place,
  ids: ReadonlySet<string>,
  file = faults.file,
): void => {
  if (ids.has(id)) return;
  const args = (): FindingArgs['template-undeclared'] => ({
    kind,
    id: shortened(id),
    near: id.length < shortest ? null : nearest(id, ids),
    declared: firstFew(ids),
  });
  faults.add(at, 'template-undeclared', args, file);
};
