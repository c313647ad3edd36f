import { MemoryFiles } from '../../../src/files/memory-files.ts';
import type { Place, SfzDocument } from '../../../src/instruments/sfz/text/document.ts';
import { readDocument } from '../../../src/instruments/sfz/text/read-document.ts';
import { structureOf, type Region } from '../../../src/instruments/sfz/structure/regions.ts';
import { InputError } from '../../../src/terms/errors.ts';
import type { Finding } from '../../../src/terms/finding.ts';

export const root = 'kit/kit.sfz';

type Contents = Readonly<Record<string, string | Uint8Array>>;

/** Reads a text as the file `kit/kit.sfz`, with other files beside it by their whole paths. */
export const read = (text: string | Uint8Array, others: Contents = {}): Promise<SfzDocument> =>
  readDocument(new MemoryFiles({ ...others, [root]: text }), root);

/** What a document holds, a line for each header. */
export const outline = ({ headers }: SfzDocument): readonly string[] =>
  headers.map(({ name, opcodes }) =>
    [`<${name}>`, ...opcodes.map(({ name, value }) => `${name}=${value}`)].join('|'),
  );

/** Findings as code, line and column. */
export const found = (findings: readonly Finding[]): readonly string[] =>
  findings.map(({ code, at }) => [code, at?.line ?? '-', at?.column ?? '-'].join(' '));

/** What a place covers. */
export const slice = ({ files }: SfzDocument, { file, start, end }: Place): string =>
  files[file]!.text.slice(start, end);

/** The findings that stop the reading; fails when nothing does. */
export const refusals = async (reading: Promise<unknown>): Promise<readonly Finding[]> => {
  try {
    await reading;
  } catch (error) {
    if (error instanceof InputError) return [error.finding, ...error.others];
    throw error;
  }
  throw new Error('expected an InputError');
};

/** Each region's opcodes as they count in the end: of each name the last. */
export const regionsOf = (document: SfzDocument): readonly Readonly<Record<string, string>>[] =>
  structureOf(document).regions.map(effective);

export const effective = ({ opcodes }: Region): Readonly<Record<string, string>> =>
  Object.fromEntries(opcodes.map(({ name, value }) => [name, value]));
