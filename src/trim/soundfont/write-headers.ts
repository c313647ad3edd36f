import { littleEndian } from '../../instruments/soundfont/binary.ts';
import { recordBytes, type List } from '../../instruments/soundfont/lists.ts';
import { asciiBytes, concatenated } from './riff-pieces.ts';

/** Where a preset's and an instrument's record say which zone is their first (7.2, 7.6). */
const firstZoneAt = { phdr: 24, inst: 20 } as const;

/** Names of terminal records (SoundFont 2.04, sections 7.2, 7.6, 7.10). */
const terminalName = { phdr: 'EOP', inst: 'EOI', shdr: 'EOS' } as const;

/**
 * The records of the presets or instruments that stay, all else in them as it stood, and the terminal
 * record.
 *
 * @param firstBags the first zone of each, then one more for the terminal record
 */
export const writeHeaders = (
  name: 'phdr' | 'inst',
  list: List,
  owners: readonly { readonly index: number }[],
  firstBags: readonly number[],
): Uint8Array => {
  const records = [...owners.map(({ index }) => copyOfRecord(list, index)), terminalRecord(name)];
  for (const [i, record] of records.entries()) {
    littleEndian(record).setUint16(firstZoneAt[name], firstBags[i]!, true);
  }
  return concatenated(records);
};

export const copyOfRecord = ({ name, bytes }: List, index: number): Uint8Array =>
  bytes.slice(index * recordBytes[name], (index + 1) * recordBytes[name]);

/** A name and zeros. */
export const terminalRecord = (list: keyof typeof terminalName): Uint8Array => {
  const record = new Uint8Array(recordBytes[list]);
  record.set(asciiBytes(terminalName[list]));
  return record;
};
