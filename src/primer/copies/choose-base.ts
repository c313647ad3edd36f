import type { FileUsage } from '../../playback/zone-usage.ts';

/** Copies that a cue file drives, those of printed tracks left out, each by instrument and name. */
export const drivenCopies = ({ copies }: FileUsage): ReadonlySet<string> =>
  new Set(
    copies
      .filter(({ printed }) => !printed)
      .map(({ instrument, copy }) => JSON.stringify([instrument, copy])),
  );

/**
 * The cue file whose tracks a primer has: the one that drives the most copies, the first of equal ones.
 * One that was read whole goes before one that was not.
 *
 * @param files in reel order
 * @returns null where no file could be read
 */
export const chooseBase = (files: readonly FileUsage[]): FileUsage | null => {
  let best: FileUsage | null = null;
  let most = -1;
  for (const file of files) {
    if (file.state === 'unreadable') continue;
    const count = drivenCopies(file).size + (file.state === 'read' ? 1e6 : 0);
    if (count <= most) continue;
    best = file;
    most = count;
  }
  return best;
};
