import type { Files } from '../../src/terms/files.ts';
import { bytesOf, type OutputFile } from '../../src/trim/output-file.ts';

/**
 * The bytes of a file that has been planned, all in memory. It fails where a piece reaches beyond
 * the file it copies from, or where that file has another size than the plan says.
 */
export const bytesOfFile = async (files: Files, output: OutputFile): Promise<Uint8Array> => {
  const whole = new Uint8Array(bytesOf(output));
  let at = 0;
  for (const piece of output.pieces) {
    const bytes = piece.kind === 'bytes' ? piece.bytes : await copied(files, piece);
    whole.set(bytes, at);
    at += bytes.length;
  }
  return whole;
};

type Copy = Extract<OutputFile['pieces'][number], { kind: 'copy' }>;

const copied = async (files: Files, { path, start, length, size }: Copy): Promise<Uint8Array> => {
  const info = await files.info(path);
  if (info?.kind !== 'file' || info.size !== size) {
    throw new Error(`${path} is not a file of ${String(size)} bytes`);
  }
  if (start < 0 || length < 0 || start + length > size) {
    throw new Error(`${String(start)}+${String(length)} lies outside ${path}`);
  }
  const bytes = await files.read(path, start, length);
  if (bytes.length !== length) throw new Error(`${path} gave too few bytes`);
  return bytes;
};
