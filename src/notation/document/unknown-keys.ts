import type { KeyPath } from '../../terms/findings/yaml.ts';
import { nearest } from '../nearest.ts';
import type { YamlNode } from '../yaml/tree.ts';
import { shortened } from './shortened.ts';
import { exampleFor, type Checked, type KnownKeys } from './vocabulary.ts';

/** True for a group that holds a key it does not know. */
export const hasUnknownKeys = (node: YamlNode | undefined, known: KnownKeys | null): boolean =>
  node?.kind === 'map' &&
  known !== null &&
  node.entries.some(({ key }) => !Object.hasOwn(known, key));

/** Keys that are not known, in a group and in the groups within. */
export const unknownKeys = (checked: Checked, node: YamlNode, path: KeyPath): void => {
  const { faults, vocabulary } = checked;
  const known = vocabulary.keysAt(path);
  if (known === null || node.kind !== 'map') return;
  const names = Object.keys(known);
  for (const { key, at, value } of node.entries) {
    if (Object.hasOwn(known, key)) {
      // What stands at the top is read by itself.
      if (path.length > 0) unknownKeys(checked, value, [...path, key]);
    } else if (!vocabulary.refuses(faults, path, key, at)) {
      faults.add(at, 'yaml-key-unknown', () => {
        const near = nearest(key, names);
        const example = exampleFor(vocabulary, [...path, near ?? names[0]!]);
        return { key: shortened(key), within: path, near, known: names, example };
      });
    }
  }
};
