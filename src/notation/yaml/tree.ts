import type { KeyPath } from '../../terms/findings/yaml.ts';
import type { Place } from '../../terms/finding.ts';

/** What a YAML file holds, each piece with the line and column where it starts. */
export type YamlNode = YamlScalar | YamlList | YamlMap;

/** A single value. */
export interface YamlScalar {
  readonly kind: 'scalar';
  /** As the core schema of YAML 1.2 reads it. */
  readonly value: string | number | boolean | null;
  /** Its text: of a quoted one without the quotes, of any other as it stands in the file. */
  readonly text: string;
  readonly at: Place;
}

export interface YamlList {
  readonly kind: 'list';
  readonly items: readonly YamlNode[];
  readonly at: Place;
}

/** Keys with values, in file order, no key twice. */
export interface YamlMap {
  readonly kind: 'map';
  readonly entries: readonly YamlEntry[];
  readonly at: Place;
}

export interface YamlEntry {
  readonly key: string;
  /** Of the key; the value has its own. */
  readonly at: Place;
  readonly value: YamlNode;
}

/** The entry of a key, or undefined; always undefined where the node has no keys. */
export const entryOf = (node: YamlNode | undefined, key: string): YamlEntry | undefined =>
  node?.kind === 'map' ? node.entries.find((entry) => entry.key === key) : undefined;

/** What stands at a path below `node`, or undefined. */
export const nodeAt = (node: YamlNode, path: KeyPath): YamlNode | undefined => {
  let here: YamlNode | undefined = node;
  for (const step of path) {
    if (typeof step === 'string') here = entryOf(here, step)?.value;
    else here = here?.kind === 'list' ? here.items[step] : undefined;
  }
  return here;
};
