import { nearest } from '../../notation/nearest.ts';
import type { KeyPath } from '../../terms/findings/templates.ts';
import type { Place } from '../../terms/finding.ts';
import type { Faults } from './faults.ts';
import { exampleFor, keys, kindAt, type Kind } from './keys.ts';
import { shortened } from '../shortened.ts';
import type { YamlNode } from './yaml/tree.ts';

/** True for a group that holds a key it does not know. */
export const hasUnknownKeys = (node: YamlNode | undefined, kind: Kind | null): boolean =>
  node?.kind === 'map' &&
  kind !== null &&
  node.entries.some(({ key }) => !Object.hasOwn(keys[kind], key));

/** Keys that a template knows and does not take here, with words of their own. */
const refusedKey = (faults: Faults, path: KeyPath, key: string, at: Place): boolean => {
  const kind = kindAt(path);
  if (kind === 'settle' && key === 'damage') {
    faults.add(at, 'template-settle-damage', () => ({}));
    return true;
  }
  if (kind !== 'instrument' || key !== 'outline') return false;
  const instrument = String(path.at(-1));
  faults.add(at, 'template-source-later', () => ({ instrument, kind: 'outline' }));
  return true;
};

/** Keys that are not known, in a group and in the groups within. */
export const unknownKeys = (faults: Faults, node: YamlNode, path: KeyPath): void => {
  const kind = kindAt(path);
  if (kind === null || node.kind !== 'map') return;
  const known: Readonly<Record<string, string>> = keys[kind];
  const names = Object.keys(known);
  for (const { key, at, value } of node.entries) {
    if (Object.hasOwn(known, key)) {
      // What stands at the top is read by itself.
      if (kind !== 'template') unknownKeys(faults, value, [...path, key]);
    } else if (!refusedKey(faults, path, key, at)) {
      faults.add(at, 'template-key-unknown', () => {
        const near = nearest(key, names);
        const example = exampleFor([...path, near ?? names[0]!]);
        return { key: shortened(key), within: path, near, known: names, example };
      });
    }
  }
};
