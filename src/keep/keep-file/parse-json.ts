import { inputError, type InputError } from '../../terms/errors.ts';
import type { Place } from '../../terms/finding.ts';
import { jsonFault } from './json-fault.ts';

/** No keep file comes near it, and a text that is longer can't be held in one piece. */
export const mostKeepFileBytes = 500 * 2 ** 20;

/**
 * The JSON in a file of UTF-8 text, with or without a byte order mark.
 *
 * @throws {InputError} `keep-file-json` with line and column, or `keep-file-large`
 */
export const parseJson = (bytes: Uint8Array, path: string): unknown => {
  if (bytes.length > mostKeepFileBytes) {
    throw inputError('keep-file-large', path, { bytes: bytes.length });
  }
  let text: string;
  try {
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw notText(new TextDecoder().decode(bytes), path);
  }
  try {
    return JSON.parse(text);
  } catch {
    const { offset, cut } = jsonFault(text) ?? { offset: 0, cut: false };
    throw inputError('keep-file-json', path, { cut }, placeOf(text, offset));
  }
};

/** @param text with U+FFFD for every byte that is no UTF-8 */
const notText = (text: string, path: string): InputError => {
  const offset = text.indexOf('\ufffd');
  // A file may be cut off within a letter.
  const cut = offset === text.length - 1 && jsonFault(text.slice(0, offset))?.cut === true;
  return inputError('keep-file-json', path, { cut }, placeOf(text, offset));
};

const placeOf = (text: string, offset: number): Place => {
  const before = text.slice(0, offset);
  const start = before.lastIndexOf('\n') + 1;
  let line = 1;
  for (let at = before.indexOf('\n'); at >= 0; at = before.indexOf('\n', at + 1)) line++;
  return { line, column: offset - start + 1 };
};
