import { decodeTable } from '../../../notation/csv-text.ts';
import { placesIn } from '../../../notation/places.ts';
import { inputError } from '../../../terms/errors.ts';
import type { Files } from '../../../terms/files.ts';
import type { SfzFile } from './document.ts';
import { limits } from './limits.ts';

/**
 * Reads one file of an instrument as text.
 *
 * @param room bytes that it may have
 * @throws {InputError} what `files.read` throws; `sfz-too-large`; `sfz-not-text`
 */
export const readSfzFile = async (files: Files, path: string, room: number): Promise<SfzFile> => {
  const bytes = await files.read(path, 0, room + 1);
  if (bytes.length > room) {
    throw inputError('sfz-too-large', path, { what: 'text', limit: limits.text });
  }
  const { text, encoding } = decodeTable(bytes);
  const zero = text.indexOf('\0');
  if (zero >= 0) throw inputError('sfz-not-text', path, {}, placesIn(text)(zero));
  return { path, text, encoding };
};
