import type { Finding } from '../../terms/finding.ts';
import type { CopyUsage, FileUsage, Moment, ZoneUsage } from '../../playback/zone-usage.ts';

/** A moment as JSON holds it: `after` is null where it is Infinity, to the end of the cue. */
interface StoredMoment extends Omit<Moment, 'after'> {
  readonly after: number | null;
}

interface StoredCopy extends Omit<CopyUsage, 'lives'> {
  readonly lives: readonly (readonly StoredMoment[])[];
}

interface StoredFile extends Omit<FileUsage, 'copies'> {
  readonly copies: readonly StoredCopy[];
}

/** Usage as a file holds it. */
export interface StoredUsage extends Omit<ZoneUsage, 'files'> {
  readonly files: Readonly<Record<string, StoredFile>>;
}

const mapFiles = <From, To>(
  files: Readonly<Record<string, From>>,
  change: (file: From) => To,
): Record<string, To> =>
  Object.fromEntries(Object.entries(files).map(([key, file]) => [key, change(file)]));

/** A usage file: usage with what was found on the way, for people. */
export interface UsageFile extends StoredUsage {
  readonly findings: readonly Finding[];
}

/** For JSON, which has no Infinity. */
export const stored = (usage: ZoneUsage): StoredUsage => ({
  ...usage,
  files: mapFiles(usage.files, (file) => ({
    ...file,
    copies: file.copies.map((copy) => ({
      ...copy,
      lives: copy.lives.map((life) =>
        life.map((one) => ({ ...one, after: one.after === Infinity ? null : one.after })),
      ),
    })),
  })),
});

/** The way back. */
export const restored = (usage: StoredUsage): ZoneUsage => ({
  ...usage,
  files: mapFiles(usage.files, (file) => ({
    ...file,
    copies: file.copies.map((copy) => ({
      ...copy,
      lives: copy.lives.map((life) =>
        life.map((one) => ({ ...one, after: one.after ?? Infinity })),
      ),
    })),
  })),
});
