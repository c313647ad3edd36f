import type { DraftOutline } from '../draft/draft.ts';
import { inputError, UsageError } from '../terms/errors.ts';
import { printable } from '../terms/printable.ts';
import type { CommonOptions } from './options.ts';
import type { Host } from './streams.ts';

const outlines = (count: number): string =>
  `${String(count)} ${count === 1 ? 'outline' : 'outlines'}`;

/**
 * Finds out before the work whether outlines can go into a folder, which may have to be made.
 *
 * @throws {UsageError} when no folder is named
 * @throws {InputError} `output-unwritable`
 */
export const checkOutlinesFolder = async (folder: string | undefined): Promise<void> => {
  if (folder === undefined) return;
  if (folder === '') {
    throw new UsageError('Where should the outlines go?', 'Name a folder: --outlines outlines');
  }
  const { DiskFiles } = await import('../files/disk-files.ts');
  const there = await new DiskFiles().info(folder);
  if (there !== null && there.kind !== 'folder') {
    throw inputError('output-unwritable', folder, { reason: 'it is not a folder' });
  }
};

/**
 * Writes drafted outlines, each whole or not at all and none over anything, and says so.
 *
 * @throws {InputError} `output-unwritable`
 */
export const writeOutlines = async (
  folder: string,
  drafted: readonly DraftOutline[],
  { format, quiet }: CommonOptions,
  host: Host,
): Promise<void> => {
  const { makeFolderOf, writeWhole } = await import('../files/write-whole.ts');
  const { DiskFiles } = await import('../files/disk-files.ts');
  const disk = new DiskFiles();
  let written = 0;
  for (const { path, isThere, text } of drafted) {
    if (isThere || (await disk.info(path)) !== null) continue;
    await makeFolderOf(path);
    await writeWhole(path, text);
    written += 1;
  }
  if (quiet || format === 'json') return;
  const place = printable(folder);
  if (written > 0) host.stderr.write(`wrote ${outlines(written)} to ${place}\n`);
  const left = drafted.length - written;
  if (left > 0) {
    const verb =
      left === 1
        ? 'was there already and stays as it is'
        : 'were there already and stay as they are';
    host.stderr.write(`${outlines(left)} in ${place} ${verb}\n`);
  }
};
