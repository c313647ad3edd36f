import { inputError } from '../../terms/errors.ts';
import type { Chunk } from './riff.ts';
import type { RangeReader } from './range-reader.ts';

/**
 * The nine lists of a bank in their fixed order, and the bytes of one record of each (SoundFont 2.04,
 * sections 7.1 to 7.10).
 */
export const recordBytes = {
  phdr: 38,
  pbag: 4,
  pmod: 10,
  pgen: 4,
  inst: 22,
  ibag: 4,
  imod: 10,
  igen: 4,
  shdr: 46,
} as const;

export type ListName = keyof typeof recordBytes;

export const listNames = Object.keys(recordBytes) as readonly ListName[];

/** A list as it lies in the file; the last of its records is the terminal one. */
export interface List {
  readonly name: ListName;
  /** Where its data begins in the file, for findings. */
  readonly start: number;
  /** Records, the terminal one included. */
  readonly count: number;
  readonly bytes: Uint8Array;
}

export type Lists = Readonly<Record<ListName, List>>;

/** Every index is an unsigned 16-bit number, so nothing can refer to more (sections 7.2 to 7.10). */
const mostRecords = 65_536;

/**
 * Presets and instruments need a record beside the terminal one (sections 7.2, 7.6); elsewhere the
 * terminal record is enough.
 */
const fewestRecords: Readonly<Partial<Record<ListName, number>>> = { phdr: 2, inst: 2 };

/**
 * Reads a list after its size has been checked, so that what a header claims is never allocated
 * unseen.
 *
 * @throws {InputError} when the size is not one of whole records, or out of bounds
 */
export const readList = async (
  reader: RangeReader,
  name: ListName,
  { at, start, length }: Chunk,
): Promise<List> => {
  const record = recordBytes[name];
  const count = length / record;
  if (!Number.isInteger(count) || count === 0) {
    const args = { chunk: name, bytes: length, record };
    throw inputError('bank-record-size', reader.path, args, { byte: at });
  }
  if (count < (fewestRecords[name] ?? 1)) {
    const code = name === 'phdr' ? 'bank-no-presets' : 'bank-no-instruments';
    throw inputError(code, reader.path, {}, { byte: at });
  }
  if (count > mostRecords) {
    throw inputError('bank-too-large', reader.path, { chunk: name, count }, { byte: at });
  }
  return { name, start, count, bytes: await reader.read(start, length) };
};
