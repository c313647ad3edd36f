import type { Stats } from 'node:fs';
import { open, readdir, stat } from 'node:fs/promises';
import { byCodePoint } from '../terms/code-point-order.ts';
import { inputError } from '../terms/errors.ts';
import type { FileInfo, Files, OpenFile } from '../terms/files.ts';
import { useFile, withoutWaiting } from './use-file.ts';
import { reasonOf } from './reason.ts';

/**
 * What is read at once has to fit in memory. No score comes near it, and of sound only stretches are
 * read; what is larger only bears a wrong name.
 */
const mostAtOnce = 256 * 2 ** 20;

/** The real disk. Only regular files are read; one that changes meanwhile is an error. */
export class DiskFiles implements Files {
  async info(path: string): Promise<FileInfo | null> {
    try {
      const stats = await stat(path);
      const kind = stats.isFile() ? 'file' : stats.isDirectory() ? 'folder' : 'other';
      return { kind, size: stats.size };
    } catch (error) {
      const reason = reasonOf(error);
      if (reason.missing) return null;
      throw inputError('path-unreadable', path, { reason: reason.code });
    }
  }

  async read(path: string, offset = 0, length?: number): Promise<Uint8Array> {
    const info = await this.info(path);
    if (info === null) throw inputError('path-missing', path, {});
    if (info.kind !== 'file') throw inputError('path-not-a-file', path, {});
    try {
      const handle = await open(path, withoutWaiting);
      try {
        const before = await handle.stat();
        if (!before.isFile()) throw inputError('path-not-a-file', path, {});
        const wanted = Math.max(0, Math.min(length ?? Infinity, before.size - offset));
        if (wanted > mostAtOnce) {
          throw inputError('path-unreadable', path, { reason: 'it is far too large' });
        }
        const bytes = new Uint8Array(wanted);
        let filled = 0;
        while (filled < wanted) {
          const { bytesRead } = await handle.read(bytes, filled, wanted - filled, offset + filled);
          if (bytesRead === 0) break;
          filled += bytesRead;
        }
        if (filled < wanted || changed(before, await handle.stat())) {
          throw inputError('path-changed-while-read', path, {});
        }
        return bytes;
      } finally {
        await handle.close();
      }
    } catch (error) {
      if (error instanceof Error && 'code' in error) {
        throw inputError('path-unreadable', path, { reason: reasonOf(error).code });
      }
      throw error;
    }
  }

  open<Result>(path: string, use: (file: OpenFile) => Promise<Result>): Promise<Result | null> {
    return useFile(path, use);
  }

  async list(path: string): Promise<readonly string[]> {
    try {
      return (await readdir(path)).sort(byCodePoint);
    } catch (error) {
      const reason = reasonOf(error);
      if (reason.missing) throw inputError('path-missing', path, {});
      throw inputError('path-unreadable', path, { reason: reason.code });
    }
  }

  /** The same for every path, linked or not, that leads to one file or folder; null when none does. */
  async identity(path: string): Promise<string | null> {
    try {
      const { dev, ino } = await stat(path, { bigint: true });
      return `${String(dev)} ${String(ino)}`;
    } catch {
      return null;
    }
  }
}

const changed = (before: Stats, after: Stats): boolean =>
  before.size !== after.size || before.mtimeMs !== after.mtimeMs;
