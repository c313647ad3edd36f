import type { KeyPath, YamlDocument } from '../../terms/findings/yaml.ts';
import type { Place } from '../../terms/finding.ts';
import type { Faults } from './faults.ts';

/** Keys, each with a line that may be pasted. */
export type KnownKeys = Readonly<Record<string, string>>;

/** The keys that a kind of document knows. */
export interface Vocabulary {
  readonly document: YamlDocument;
  /** The keys of what stands at a path; null for what has none of its own, or whose keys people name. */
  readonly keysAt: (path: KeyPath) => KnownKeys | null;
  /** A line that may be pasted where no key has one. */
  readonly example: string;
  /** Adds a fault for a key that is known and not taken here, with words of its own. */
  readonly refuses: (faults: Faults, path: KeyPath, key: string, at: Place) => boolean;
  /**
   * The unit that a number most likely lacks; null: none.
   *
   * @param expected what belongs there, as findings name it
   * @param key what it stands behind
   */
  readonly unitOf: (
    expected: string,
    key: string | number | undefined,
    number: number,
  ) => string | null;
}

/** What is read, and where what is wrong with it goes. */
export interface Checked {
  readonly faults: Faults;
  readonly vocabulary: Vocabulary;
}

/** A line that may be pasted for what stands at `path`, or for the nearest thing around it. */
export const exampleFor = ({ keysAt, example }: Vocabulary, path: KeyPath): string => {
  for (let length = path.length; length > 0; length -= 1) {
    const key = path[length - 1];
    const known = keysAt(path.slice(0, length - 1));
    if (known !== null && typeof key === 'string' && Object.hasOwn(known, key)) return known[key]!;
  }
  return example;
};
