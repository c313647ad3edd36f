import { MemoryFiles } from '../../../src/files/memory-files.ts';
import { trimSfz } from '../../../src/trim/sfz/trim-sfz.ts';
import type { TrimSet } from '../../../src/trim/trim-set.ts';
import type { Trimmed } from '../../../src/trim/trimmed.ts';
import { bytesOfFile } from '../write-pieces.ts';

export type Contents = Readonly<Record<string, string | Uint8Array>>;

export const keepSet = (loaded: readonly number[], silent: readonly number[] = []): TrimSet => ({
  loaded: new Set(loaded),
  silent: new Set(silent),
  presetZones: new Set(),
  programs: new Set(),
});

export interface Made {
  readonly trimmed: Trimmed;
  /** By path, as bytes. */
  readonly bytes: Readonly<Record<string, Uint8Array>>;
  /** The same as text in UTF-8. */
  readonly texts: Readonly<Record<string, string>>;
}

/** Trims the instrument `root` of a disk in memory. */
export const trim = async (contents: Contents, keep: TrimSet, root = 'kit.sfz'): Promise<Made> => {
  const files = new MemoryFiles(contents);
  const trimmed = await trimSfz(files, root, keep);
  const all = await Promise.all(
    trimmed.files.map(async (file) => [file.path, await bytesOfFile(files, file)] as const),
  );
  const bytes = Object.fromEntries(all);
  const texts = Object.fromEntries(
    all.map(([path, data]) => [path, new TextDecoder('utf-8', { ignoreBOM: true }).decode(data)]),
  );
  return { trimmed, bytes, texts };
};
