import type { BaseIssue } from 'valibot';
import type { KeyPath } from '../../terms/findings/yaml.ts';
import type { Place } from '../../terms/finding.ts';
import { hasUnknownKeys } from './unknown-keys.ts';
import { exampleFor, type Checked } from './vocabulary.ts';
import { wrongValue } from './wrong-value.ts';
import { entryOf, nodeAt, type YamlNode } from '../yaml/tree.ts';

/**
 * A key that the group `node` at `path` can't do without. Where the group has a key that is not
 * known, that one is most likely meant, and has been told already.
 */
export const missingKey = (
  checked: Checked,
  node: YamlNode | undefined,
  at: Place,
  path: KeyPath,
  key: string,
): void => {
  if (hasUnknownKeys(node, checked.vocabulary.keysAt(path))) return;
  const example = exampleFor(checked.vocabulary, [...path, key]);
  checked.faults.add(at, 'yaml-key-missing', () => ({ key, within: path, example }));
};

/**
 * What a shape finds wrong with `node`, which stands at `base`.
 *
 * @param owner where the key stands that the node belongs to
 */
export const shapeFault = (
  checked: Checked,
  node: YamlNode,
  base: KeyPath,
  owner: Place,
  { path, message, expected }: BaseIssue<unknown>,
): void => {
  const below = (path ?? []).map((step) => step.key as string | number);
  const here = nodeAt(node, below);
  const last = path?.at(-1);
  if (last?.type === 'map' && last.origin === 'key') {
    const group = nodeAt(node, below.slice(0, -1));
    const text = String(last.key);
    const at = entryOf(group, text)?.at ?? node.at;
    const key = { kind: 'scalar', value: text, text, at } as const;
    wrongValue(checked, key, [...base, ...below.slice(0, -1)], message);
    return;
  }
  if (here !== undefined) {
    const options = expected === null || expected === '' ? [] : expected.split('|');
    wrongValue(checked, here, [...base, ...below], message, options);
    return;
  }
  // Of what is not there the library only tells where it is required.
  const way = below.slice(0, -1);
  const group = nodeAt(node, way);
  const at = way.length === 0 ? owner : (group?.at ?? owner);
  missingKey(checked, group, at, [...base, ...way], String(below.at(-1)));
};
