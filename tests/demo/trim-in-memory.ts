import type { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan } from '../../src/jobs/plan.ts';
import type { PlanInstrument } from '../../src/keep/plan.ts';
import { trimBank } from '../../src/trim/soundfont/trim-bank.ts';
import type { TrimSet } from '../../src/trim/trim-set.ts';
import { bytesOfFile } from '../trim/write-pieces.ts';

/** A patch in a plan is 32 768 times the program plus the bank. */
const programBits = 15;

/** A bank in memory, and the smaller one that is made of it. */
export interface TrimmedInMemory {
  readonly set: TrimSet;
  readonly bytes: Uint8Array;
  /** By the number of a zone that stays, its number in the smaller bank. */
  readonly zones: ReadonlyMap<number, number>;
}

/** Worked out from a plan's public fields alone, not by the command's own way to it. */
const trimSetOf = ({ kept, presetZones, copies }: PlanInstrument): TrimSet => ({
  loaded: new Set(kept.flatMap(({ zone, reasons }) => (reasons.join() === 'grain' ? [] : [zone]))),
  silent: new Set(),
  presetZones: new Set(presetZones),
  programs: new Set([
    0,
    ...copies.flatMap(({ chosen }) =>
      chosen.flatMap(({ values }) => values.map((value) => value >> programBits)),
    ),
  ]),
});

/** Trims with the part that touches no disk. */
export const trimWith = async (
  files: MemoryFiles,
  bank: string,
  set: TrimSet,
): Promise<TrimmedInMemory> => {
  const trimmed = await trimBank(files, bank, set, 'Trimmed by a test.');
  const [only, ...others] = trimmed.files;
  if (only === undefined || others.length > 0) throw new Error('a bank is one file');
  return { set, bytes: await bytesOfFile(files, only), zones: trimmed.zones };
};

/** Plans cues on a bank and trims it for them. */
export const trimInMemory = async (
  files: MemoryFiles,
  bank: string,
  cues: readonly string[],
): Promise<TrimmedInMemory> => {
  const [instrument] = (await plan({ cues, instrument: bank, files })).instruments;
  return trimWith(files, bank, trimSetOf(instrument!));
};
