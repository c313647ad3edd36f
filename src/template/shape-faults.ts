import type { BaseIssue } from 'valibot';
import { nearest } from '../notation/nearest.ts';
import { parseNumber } from '../notation/number.ts';
import type { KeyPath } from '../terms/findings/templates.ts';
import type { Place } from '../terms/finding.ts';
import type { Faults } from './faults.ts';
import { exampleFor, keys, kindAt, type Kind } from './keys.ts';
import { shortened } from './shortened.ts';
import { entryOf, nodeAt, type YamlNode } from './yaml/tree.ts';

/** The unit that is most likely meant where a number has none. */
const likelyUnit = (expected: string, key: string | number | undefined): string | null => {
  if (expected === 'slack') return 'ms';
  if (expected === 'head') return 'KiB';
  if (expected === 'width') return 'bit';
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

/** True for a group that holds a key it does not know. */
export const hasUnknownKeys = (node: YamlNode | undefined, kind: Kind | null): boolean =>
  node?.kind === 'map' &&
  kind !== null &&
  node.entries.some(({ key }) => !Object.hasOwn(keys[kind], key));

/**
 * A key that the group `node` at `path` can't do without. Where the group has a key that is not
 * known, that one is most likely meant, and has been told already.
 */
export const missingKey = (
  faults: Faults,
  node: YamlNode | undefined,
  at: Place,
  path: KeyPath,
  key: string,
): void => {
  if (hasUnknownKeys(node, kindAt(path))) return;
  const example = exampleFor([...path, key]);
  faults.add(at, 'template-key-missing', () => ({ key, within: path, example }));
};

/**
 * What a shape finds wrong with `node`, which stands at `base`.
 *
 * @param owner where the key stands that the node belongs to
 */
export const shapeFault = (
  faults: Faults,
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
    wrongValue(faults, key, [...base, ...below.slice(0, -1)], message);
    return;
  }
  if (here !== undefined) {
    const options = expected === null || expected === '' ? [] : expected.split('|');
    wrongValue(faults, here, [...base, ...below], message, options);
    return;
  }
  // Of what is not there the library only tells where it is required.
  const way = below.slice(0, -1);
  const group = nodeAt(node, way);
  const at = way.length === 0 ? owner : (group?.at ?? owner);
  missingKey(faults, group, at, [...base, ...way], String(below.at(-1)));
};

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
