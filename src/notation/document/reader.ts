import { safeParse } from 'valibot';
import type { KeyPath } from '../../terms/findings/yaml.ts';
import type { Place } from '../../terms/finding.ts';
import type { Faults } from './faults.ts';
import { shapeFault } from './shape-faults.ts';
import type { Shape } from './shape-of.ts';
import { unknownKeys } from './unknown-keys.ts';
import type { Vocabulary } from './vocabulary.ts';
import { wrongValue } from './wrong-value.ts';
import { entryOf, type YamlEntry, type YamlMap, type YamlNode } from '../yaml/tree.ts';

/** Reads pieces of a file's tree; what is wrong goes to its faults. */
export class Reader {
  readonly root: YamlMap;
  readonly faults: Faults;
  readonly vocabulary: Vocabulary;
  readonly #named = new Map<string, readonly YamlEntry[]>();

  constructor(root: YamlMap, faults: Faults, vocabulary: Vocabulary) {
    this.root = root;
    this.faults = faults;
    this.vocabulary = vocabulary;
  }

  /** The entry of a key at the top. */
  top(key: string): YamlEntry | undefined {
    return entryOf(this.root, key);
  }

  /** Where the value of a key of `node` stands; the place of `node` where it has no such key. */
  placeIn(node: YamlNode, key: string): Place {
    return entryOf(node, key)?.value.at ?? node.at;
  }

  /** Where a key of `node` stands; the place of `node` where it has no such key. */
  keyIn(node: YamlNode, key: string): Place {
    return entryOf(node, key)?.at ?? node.at;
  }

  /**
   * The value of `node`, which stands at `path`, or null when it has not the shape.
   *
   * @param owner where the key stands that the node belongs to
   */
  read<Value>(shape: Shape<Value>, node: YamlNode, path: KeyPath, owner = node.at): Value | null {
    unknownKeys(this, node, path);
    const result = safeParse(shape, node);
    if (result.success) return result.output;
    for (const issue of result.issues) shapeFault(this, node, path, owner, issue);
    return null;
  }

  /** The value of a key at the top; null when it is not there or has not the shape. */
  readTop<Value>(shape: Shape<Value>, key: string): Value | null {
    const entry = this.top(key);
    return entry === undefined ? null : this.read(shape, entry.value, [key], entry.at);
  }

  /** The entries of a group at the top whose keys people name; none where it is not there. */
  namedEntries(key: string): readonly YamlEntry[] {
    const known = this.#named.get(key);
    if (known !== undefined) return known;
    const node = this.top(key)?.value;
    const entries = node?.kind === 'map' ? node.entries : [];
    this.#named.set(key, entries);
    if (node !== undefined && node.kind !== 'map') wrongValue(this, node, [key], 'keys');
    return entries;
  }

  /** The items of a list at the top; none where it is not there. */
  items(key: string): readonly YamlNode[] {
    const node = this.top(key)?.value;
    if (node === undefined) return [];
    if (node.kind === 'list') return node.items;
    wrongValue(this, node, [key], 'list');
    return [];
  }
}
