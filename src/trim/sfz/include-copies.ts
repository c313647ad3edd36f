import type { SfzDocument } from '../../instruments/sfz/text/document.ts';
import { plainPath } from '../../instruments/sfz/text/paths.ts';
import type { Files } from '../../terms/files.ts';
import { edited, inOrder, type Edit } from './edit.ts';
import { FreshNames } from './fresh-names.ts';
import { insideQuotes, renamed } from './renamed.ts';

/** A text as it is written. */
export interface WrittenText {
  /** Index into the files of the document. */
  readonly file: number;
  readonly path: string;
  /** Ascending; none for one that stays as it is. */
  readonly edits: readonly Edit[];
}

/**
 * Which texts are to be written: the root first, the others as they are first included. A file that is
 * included several times may lose something else each time: then there is one text for each way it
 * ends up, and the directives that include it name the right one.
 *
 * @param edits by inclusion
 * @param asked paths that samples are looked for at: no new name is one of them
 */
export const copiesOfIncludes = async (
  files: Files,
  document: SfzDocument,
  edits: ReadonlyMap<number, readonly Edit[]>,
  asked: ReadonlySet<string>,
): Promise<readonly WrittenText[]> => {
  const { inclusions } = document;
  const children = childrenOf(document);
  const variants = variantsOf(document, edits, children);
  const names = await namesOf(files, document, variants, asked);
  const seen = new Set<string>();
  return inclusions.flatMap(({ file }, i): readonly WrittenText[] => {
    const path = names[i]!;
    if (seen.has(path)) return [];
    seen.add(path);
    const { text } = document.files[file]!;
    const directives = children[i]!.flatMap((child): readonly Edit[] => {
      const { file, place, written } = inclusions[child]!;
      const { path: original } = document.files[file]!;
      if (names[child] === original) return [];
      const inside = insideQuotes(text, place!);
      const number = names[child]!;
      return [
        {
          ...inside,
          put: renamed(text.slice(inside.start, inside.end), written, original, number),
        },
      ];
    });
    return [{ file, path, edits: inOrder([...(edits.get(i) ?? []), ...directives]) }];
  });
};

const childrenOf = ({ inclusions }: SfzDocument): readonly (readonly number[])[] => {
  const children = inclusions.map((): number[] => []);
  inclusions.forEach(({ parent }, i) => {
    if (parent >= 0) children[parent]!.push(i);
  });
  return children;
};

/** By inclusion: -1 where the text and all it includes stay as they are; else one number for each text. */
const variantsOf = (
  { files, inclusions }: SfzDocument,
  edits: ReadonlyMap<number, readonly Edit[]>,
  children: readonly (readonly number[])[],
): readonly number[] => {
  const variants = inclusions.map(() => -1);
  const known = files.map(() => new Map<string, number>());
  let count = 0;
  // What is included stands behind what includes it: from the last to the first, it is known by then.
  for (let i = inclusions.length - 1; i >= 0; i -= 1) {
    const { file } = inclusions[i]!;
    const changed = children[i]!.filter((child) => variants[child]! >= 0);
    const own = edits.get(i) ?? [];
    if (own.length === 0 && changed.length === 0) continue;
    const { text } = files[file]!;
    // No text holds a zero: it stands for a name that is given later.
    const marks = changed.map((child): Edit => {
      const inside = insideQuotes(text, inclusions[child]!.place!);
      return { ...inside, put: `\0${String(variants[child])}` };
    });
    const key = edited(text, inOrder([...own, ...marks]));
    let variant = known[file]!.get(key);
    if (variant === undefined) known[file]!.set(key, (variant = count++));
    variants[i] = variant;
  }
  return variants;
};

/** The path of each inclusion's text: its own as long as no other text has it. */
const namesOf = async (
  files: Files,
  { files: texts, inclusions }: SfzDocument,
  variants: readonly number[],
  asked: ReadonlySet<string>,
): Promise<readonly string[]> => {
  const paths = texts.map(({ path }) => plainPath(path));
  const fresh = new FreshNames(files, [...paths, ...asked]);
  const taken = new Set(inclusions.flatMap(({ file }, i) => (variants[i] === -1 ? [file] : [])));
  const names = new Map<number, string>();
  const all: string[] = [];
  for (const [i, { file }] of inclusions.entries()) {
    const variant = variants[i]!;
    let name = variant < 0 ? paths[file]! : names.get(variant);
    if (name === undefined) {
      name = taken.has(file) ? await fresh.near(paths[file]!) : paths[file]!;
      taken.add(file);
      names.set(variant, name);
    }
    all.push(name);
  }
  return all;
};
