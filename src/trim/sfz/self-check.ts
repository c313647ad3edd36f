import type { Header, SfzDocument } from '../../instruments/sfz/text/document.ts';
import { readDocument } from '../../instruments/sfz/text/read-document.ts';
import type { Fates } from './fates.ts';
import { silence, goesBeforeLast } from './silences.ts';
import type { NewHeader } from './stub-list.ts';
import { WrittenFiles } from './written-files.ts';

/**
 * Reads what was made and compares it: the headers that stay with the same opcodes in the same order,
 * then the new ones. What regions inherit follows from these alone.
 *
 * @param outputs the root first
 * @returns what was read
 * @throws {Error} when they differ: a bug
 */
export const checkRewritten = async (
  document: SfzDocument,
  { ofHeader }: Fates,
  added: readonly NewHeader[],
  outputs: readonly { readonly path: string; readonly bytes: Uint8Array }[],
): Promise<SfzDocument> => {
  const disk = new WrittenFiles(outputs);
  const made = await readDocument(disk, outputs[0]!.path);
  const { headers } = made;
  let at = 0;
  const expect = (name: string, opcodes: NewHeader['opcodes']): void => {
    const header = headers[at];
    at += 1;
    if (header?.name === name && isSame(header, opcodes)) return;
    throw new Error(
      `${document.files[0]!.path}: header ${String(at)}, <${name}>, came out changed`,
    );
  };
  document.headers.forEach((header, i) => {
    const fate = ofHeader[i]!;
    if (fate !== 'goes') expect(header.name, opcodesOf(header, fate === 'silenced'));
  });
  for (const { name, opcodes } of added) expect(name, opcodes);
  if (headers.length > at) {
    throw new Error(`${document.files[0]!.path}: ${String(headers.length - at)} headers too many`);
  }
  return made;
};

const opcodesOf = (header: Header, isSilenced: boolean): NewHeader['opcodes'] => {
  const own = header.opcodes.map(({ name, value }) => [name, value] as const);
  if (isSilenced) own.splice(own.length - (goesBeforeLast(header) ? 1 : 0), 0, silence);
  return own;
};

const isSame = ({ opcodes }: Header, expected: NewHeader['opcodes']): boolean =>
  opcodes.length === expected.length &&
  opcodes.every(({ name, value }, i) => name === expected[i]![0] && value === expected[i]![1]);
