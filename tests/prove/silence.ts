import { readFile, writeFile } from 'node:fs/promises';
import { readBankSamples, type BankSamples, type Words } from './bank-samples.ts';
import { merged, without } from './poison.ts';

/** What silencing one sample came to. */
export interface Silenced {
  /** Words that became zero: 0 where other samples cover all of it. */
  readonly words: number;
  /** Of these, the ones that had not been zero before. */
  readonly changed: number;
}

/** Points after a sample that its sound may reach (SoundFont 2.01, section 6.1). */
const guardWords = 46;

const pointsOf = ({ headers, smpl }: BankSamples, sample: number, after: number): Words[] => {
  const header = headers[sample];
  if (header === undefined) throw new Error(`the bank has no sample ${String(sample)}`);
  const words = Math.floor(smpl.bytes / 2);
  return header.rom ? [] : [{ start: header.start, end: Math.min(header.end + after, words) }];
};

/**
 * Writes to `out` a copy of a bank in which one sample is silence, as far as no other sample shares its
 * points. The words after other samples stay as they are, and so do its own.
 */
export const silenceOne = async (bank: string, out: string, sample: number): Promise<Silenced> => {
  const samples = await readBankSamples(bank);
  const others = samples.headers.flatMap((_, index) =>
    index === sample ? [] : pointsOf(samples, index, guardWords),
  );
  const bytes = await readFile(bank);
  let [words, changed] = [0, 0];
  for (const { start, end } of without(pointsOf(samples, sample, 0), merged(others))) {
    for (let word = start; word < end; word += 1) {
      const [high, low] = [samples.smpl.at + word * 2, (samples.sm24?.at ?? 0) + word];
      words += 1;
      if (bytes.readUInt16LE(high) !== 0 || (samples.sm24 !== null && bytes[low] !== 0))
        changed += 1;
    }
    bytes.fill(0, samples.smpl.at + start * 2, samples.smpl.at + end * 2);
    if (samples.sm24 !== null) bytes.fill(0, samples.sm24.at + start, samples.sm24.at + end);
  }
  await writeFile(out, bytes);
  return { words, changed };
};
