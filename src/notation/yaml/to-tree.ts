import { isCollection, isMap, isScalar, isSeq, type LineCounter, type ParsedNode } from 'yaml';
import type { Place } from '../../terms/finding.ts';
import type { Faults } from '../document/faults.ts';
import type { YamlEntry, YamlNode, YamlScalar } from './tree.ts';

/** What the nodes of a file are turned into a tree with. */
interface Turning {
  readonly lines: LineCounter;
  readonly faults: Faults;
}

const placeAt = ({ lines }: Turning, offset: number): Place => {
  const { line, col } = lines.linePos(offset);
  return { line, column: col };
};

const scalar = (value: unknown, source: string | undefined, at: Place): YamlScalar => {
  const known =
    typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean';
  return {
    kind: 'scalar',
    value: known ? value : null,
    text: typeof value === 'string' ? value : (source ?? ''),
    at,
  };
};

/** The key of a pair, or null when it can't be one; a fault then says why. */
const keyOf = (node: ParsedNode | null, at: Place, { faults }: Turning): string | null => {
  const text = isScalar(node) ? scalar(node.value, node.source, at).text : null;
  if (text !== null && text !== '') return text;
  const reason = text === '' || node === null ? 'empty' : 'odd';
  faults.add(at, 'yaml-key-odd', () => ({ reason }));
  return null;
};

/**
 * The nodes of a YAML file as a tree with places. Keys that repeat and keys that are none are faults;
 * they are left out of the tree. What stands for nothing is a scalar of null, placed at its key.
 *
 * @param at where a node without any text belongs
 */
export const toTree = (node: ParsedNode | null, turning: Turning, at: Place): YamlNode => {
  const here = node === null || !hasText(node) ? at : placeAt(turning, node.range[0]);
  if (isSeq(node)) {
    const items = (node.items as readonly ParsedNode[]).map((item) =>
      toTree(item, turning, placeAt(turning, item.range[0])),
    );
    return { kind: 'list', items, at: here };
  }
  if (!isMap<ParsedNode, ParsedNode | null>(node)) {
    return isScalar(node) ? scalar(node.value, node.source, here) : scalar(null, '', here);
  }
  const entries = new Map<string, YamlEntry>();
  for (const pair of node.items) {
    const keyAt = placeAt(turning, pair.key.range[0]);
    const key = keyOf(pair.key, keyAt, turning);
    if (key === null) continue;
    const first = entries.get(key)?.at.line;
    if (first === undefined) {
      entries.set(key, { key, at: keyAt, value: toTree(pair.value, turning, keyAt) });
    } else {
      turning.faults.add(keyAt, 'yaml-key-repeated', () => ({ key, line: first }));
    }
  }
  return { kind: 'map', entries: [...entries.values()], at: here };
};

const hasText = (node: ParsedNode): boolean => isCollection(node) || node.range[0] < node.range[1];
