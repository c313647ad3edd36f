import { parseNumber } from '../../notation/number.ts';
import type { KeyPath } from '../../terms/findings/templates.ts';
import type { Faults } from './faults.ts';
import { exampleFor } from './keys.ts';
import { shortened } from '../shortened.ts';
import type { YamlNode } from './yaml/tree.ts';

/** The unit that is most likely meant where a number has none. */
const likelyUnit = (expected: string, key: string | number | undefined): string | null => {
  if (expected === 'slack') return 'ms';
  if (expected === 'head') return 'KiB';
  if (expected === 'width') return 'bit';
  if (expected === 'byte-rate') return 'MB/s';
  if (expected !== 'size') return null;
  return key === 'per-zone' ? 'B' : key === 'per-copy' ? 'MiB' : 'GiB';
};

/** A number that only lacks its unit. */
const lacksUnit = (expected: string, node: YamlNode): boolean => {
  if (node.kind !== 'scalar') return false;
  const number = parseNumber(node.text);
  if (number === null || number <= 0) return false;
  return expected !== 'width' || [16, 24, 32].includes(number);
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
  faults: Faults,
  node: YamlNode,
  path: KeyPath,
  expected: string,
  options: readonly string[] = [],
): void => {
  const example = exampleFor(path);
  const unit = likelyUnit(expected, path.at(-1));
  if (node.kind === 'scalar' && node.value === null) {
    faults.add(node.at, 'template-key-bare', () => ({ path, example }));
  } else if (unit !== null && lacksUnit(expected, node)) {
    const text = found(node).found;
    faults.add(node.at, 'template-unit-missing', () => ({ path, found: text, unit }));
  } else {
    faults.add(node.at, 'template-value', () => ({
      path,
      expected,
      options,
      ...found(node),
      example,
    }));
  }
};
