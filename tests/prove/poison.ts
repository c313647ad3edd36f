import { copyFile, open, type FileHandle } from 'node:fs/promises';
import { readBankSamples, type BankSamples, type Words } from './bank-samples.ts';
import { Seeded } from './seeded.ts';

/**
 * Words after a sample that belong to its sound: a synthesiser may read them when it interpolates
 * (SoundFont 2.01, section 6.1).
 */
const guardWords = 46;

/** Joins what overlaps or touches; ascending. */
export const merged = (list: readonly Words[]): Words[] => {
  const result: { start: number; end: number }[] = [];
  for (const { start, end } of [...list].sort((a, b) => a.start - b.start)) {
    const last = result.at(-1);
    if (end <= start) continue;
    if (last !== undefined && start <= last.end) last.end = Math.max(last.end, end);
    else result.push({ start, end });
  }
  return result;
};

/** What of `list` lies outside `spared`. Both ascending and apart, as {@link merged} makes them. */
export const without = (list: readonly Words[], spared: readonly Words[]): Words[] => {
  const result: Words[] = [];
  for (const { start, end } of list) {
    let at = start;
    for (const one of spared) {
      if (one.end <= at) continue;
      if (one.start >= end) break;
      if (one.start > at) result.push({ start: at, end: one.start });
      at = one.end;
    }
    if (at < end) result.push({ start: at, end });
  }
  return result;
};

const intervals = (bank: BankSamples, samples: readonly number[], after: number): Words[] => {
  const words = Math.floor(bank.smpl.bytes / 2);
  return merged(
    samples.flatMap((index) => {
      const header = bank.headers[index];
      if (header === undefined) throw new Error(`the bank has no sample ${String(index)}`);
      if (header.rom) return [];
      return [{ start: header.start, end: Math.min(header.end + after, words) }];
    }),
  );
};

const writeAll = async (file: FileHandle, bytes: Uint8Array, at: number): Promise<void> => {
  const { bytesWritten } = await file.write(bytes, 0, bytes.length, at);
  if (bytesWritten !== bytes.length) throw new Error('the copy of the bank was not written whole');
};

/** Overwrites the words in a copy of the bank with full-scale noise; returns how many. */
const poisonWords = async (
  bank: string,
  out: string,
  { smpl, sm24 }: BankSamples,
  targets: readonly Words[],
  seed: number,
): Promise<number> => {
  await copyFile(bank, out);
  const file = await open(out, 'r+');
  const noise = new Seeded(seed);
  let count = 0;
  try {
    for (const { start, end } of targets) {
      const words = end - start;
      const buffer = Int32Array.from({ length: Math.ceil(words / 2) }, () => noise.next());
      const bytes = new Uint8Array(buffer.buffer);
      await writeAll(file, bytes.subarray(0, words * 2), smpl.at + start * 2);
      if (sm24 !== null) await writeAll(file, bytes.subarray(0, words), sm24.at + start);
      count += words;
    }
  } finally {
    await file.close();
  }
  return count;
};

/**
 * Writes to `out` a copy of the bank in which the points of the dropped samples are noise.
 *
 * The points of the kept samples and the 46 words after each stay as they are, also where a dropped
 * sample shares them.
 *
 * @param dropped header indices whose points become noise.
 * @param kept header indices whose points stay.
 * @returns the number of words overwritten.
 */
export const poisonDropped = async (
  bank: string,
  out: string,
  dropped: readonly number[],
  kept: readonly number[],
  seed: number,
): Promise<number> => {
  const samples = await readBankSamples(bank);
  const targets = without(intervals(samples, dropped, 0), intervals(samples, kept, guardWords));
  return poisonWords(bank, out, samples, targets, seed);
};

/**
 * Writes to `out` a copy of the bank in which one kept sample is noise, as far as it does not share its
 * points with other kept samples.
 *
 * @returns the number of words overwritten: 0 where other kept samples cover the sample.
 */
export const poisonOne = async (
  bank: string,
  out: string,
  sample: number,
  kept: readonly number[],
  seed: number,
): Promise<number> => {
  const samples = await readBankSamples(bank);
  const others = kept.filter((index) => index !== sample);
  const targets = without(intervals(samples, [sample], 0), intervals(samples, others, guardWords));
  return poisonWords(bank, out, samples, targets, seed);
};
