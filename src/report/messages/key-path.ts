import type { KeyPath } from '../../terms/findings/yaml.ts';
import { printable } from '../../terms/printable.ts';

/** What the items of a list are called. */
const items: ReadonlyMap<string, string> = new Map([
  ['routes', 'rule'],
  ['pins', 'pin'],
]);

/**
 * Where a key stands in its file, for people: they count from 1.
 *
 * @example keyPath(['routes', 2, 'track']) // 'routes > rule 3 > track'
 */
export const keyPath = (path: KeyPath): string =>
  path
    .map((step, i) => {
      if (typeof step === 'string') return step === '' ? '""' : printable(step);
      return `${items.get(String(path[i - 1])) ?? 'item'} ${String(step + 1)}`;
    })
    .join(' > ');
