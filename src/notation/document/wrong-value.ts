import { parseNumber } from '../number.ts';
import type { KeyPath } from '../../terms/findings/yaml.ts';
import { shortened } from './shortened.ts';
import { exampleFor, type Checked } from './vocabulary.ts';
import type { YamlNode } from '../yaml/tree.ts';

/** The unit of a number that only lacks it. */
const missingUnit = ({ vocabulary }: Checked, expected: string, node: YamlNode, path: KeyPath) => {
  const number = node.kind === 'scalar' ? parseNumber(node.text) : null;
  return number === null || number <= 0 ? null : vocabulary.unitOf(expected, path.at(-1), number);
};

/** `{art}` without quotes is a group with one key and nothing behind it. */
const capture = (node: YamlNode): string | null => {
  const [entry, second] = node.kind === 'map' ? node.entries : [];
  const isBare = entry?.value.kind === 'scalar' && entry.value.text === '';
  return isBare && second === undefined ? `{${entry.key}}` : null;
};

const found = (node: YamlNode): { readonly found: string; readonly shape: string } => {
  if (node.kind === 'scalar') return { found: shortened(node.text), shape: 'text' };
  const braces = capture(node);
  if (braces !== null) return { found: shortened(braces), shape: 'braces' };
  return { found: '', shape: node.kind === 'list' ? 'list' : 'keys' };
};

/** A value that is not what belongs at `path`. */
export const wrongValue = (
  checked: Checked,
  node: YamlNode,
  path: KeyPath,
  expected: string,
  options: readonly string[] = [],
): void => {
  const { faults, vocabulary } = checked;
  const example = exampleFor(vocabulary, path);
  const unit = missingUnit(checked, expected, node, path);
  if (node.kind === 'scalar' && node.value === null) {
    faults.add(node.at, 'yaml-key-bare', () => ({ path, example }));
  } else if (unit !== null) {
    const text = found(node).found;
    faults.add(node.at, 'yaml-unit-missing', () => ({ path, found: text, unit }));
  } else {
    faults.add(node.at, 'yaml-value', () => ({
      path,
      expected,
      options,
      ...found(node),
      example,
    }));
  }
};
