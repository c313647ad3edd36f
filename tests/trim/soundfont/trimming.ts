import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { trimBank } from '../../../src/trim/soundfont/trim-bank.ts';
import type { TrimSet } from '../../../src/trim/trim-set.ts';
import type { Trimmed } from '../../../src/trim/trimmed.ts';
import { bytesOfFile } from '../write-pieces.ts';
import { bytesOfPlan, type TrimPlan } from './bank.ts';
import { readRaw, zonesByIndex, type RawBank } from './naive-reader.ts';

export const note = 'Trimmed for the test.';
export const bankPath = 'banks/test.sf2';

export interface Result {
  readonly before: RawBank;
  readonly after: RawBank;
  readonly bytesBefore: Uint8Array;
  readonly bytes: Uint8Array;
  readonly trimmed: Trimmed;
}

export const keeping = (
  loaded: Iterable<number>,
  presetZones: Iterable<number>,
  programs: Iterable<number> = [],
): TrimSet => ({
  loaded: new Set(loaded),
  silent: new Set(),
  presetZones: new Set(presetZones),
  programs: new Set(programs),
});

export const trimBytes = async (bytes: Uint8Array, keep: TrimSet): Promise<Result> => {
  const files = new MemoryFiles({ [bankPath]: bytes });
  const trimmed = await trimBank(files, bankPath, keep, note);
  const written = await bytesOfFile(files, trimmed.files[0]!);
  return {
    before: readRaw(bytes),
    after: readRaw(written),
    bytesBefore: bytes,
    bytes: written,
    trimmed,
  };
};

export const trimPlan = (plan: TrimPlan, keep: TrimSet): Promise<Result> =>
  trimBytes(bytesOfPlan(plan), keep);

/** All zones, of both levels, and all programs. */
export const everything = (plan: TrimPlan): TrimSet => {
  const { presets, instruments } = readRaw(bytesOfPlan(plan));
  return keeping(
    zonesByIndex(instruments).keys(),
    zonesByIndex(presets).keys(),
    presets.map((_, i) => plan.presets[i]!.program),
  );
};
