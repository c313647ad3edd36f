import {
  accessSync,
  closeSync,
  constants,
  fstatSync,
  fsyncSync,
  lstatSync,
  mkdirSync,
  openSync,
  readSync,
  readdirSync,
  realpathSync,
  renameSync,
  rmSync,
  rmdirSync,
  statSync,
  statfsSync,
  unlinkSync,
  writeSync,
  type BigIntStats,
  type Dirent,
} from 'node:fs';
import { withoutWaiting } from './use-file.ts';

/**
 * All that writing a folder asks of the system, each a call that can fail. They are done at once: a
 * thread for each would cost more than small samples do, and nothing is half done when the process is
 * told to end.
 */
export interface FolderCalls {
  readonly lstat: (path: string) => BigIntStats;
  readonly stat: (path: string) => BigIntStats;
  readonly realpath: (path: string) => string;
  /** Fails where nothing can be written in `folder`. */
  readonly mayWriteIn: (folder: string) => void;
  /** Bytes that are free on the disk of `folder`; null when the system does not say. */
  readonly free: (folder: string) => number | null;
  readonly list: (folder: string) => readonly Dirent[];
  readonly makeFolder: (path: string) => void;
  /** Without waiting for the writer of a pipe. */
  readonly openSource: (path: string) => number;
  /** Fails where there is anything already, a link too. */
  readonly openNew: (path: string) => number;
  readonly openAgain: (path: string) => number;
  readonly fstat: (descriptor: number) => BigIntStats;
  readonly read: (descriptor: number, into: Uint8Array, at: number) => number;
  readonly write: (descriptor: number, bytes: Uint8Array) => number;
  readonly sync: (descriptor: number) => void;
  readonly close: (descriptor: number) => void;
  readonly rename: (from: string, to: string) => void;
  readonly removeFile: (path: string) => void;
  /** Fails where anything is in it. */
  readonly removeEmpty: (folder: string) => void;
  /** With all that is in it, links not followed; nothing there is no failure. */
  readonly removeAll: (path: string) => void;
}

export const diskCalls: FolderCalls = {
  lstat: (path) => lstatSync(path, { bigint: true }),
  stat: (path) => statSync(path, { bigint: true }),
  realpath: (path) => realpathSync.native(path),
  // With the dot, a file in the folder's place is noticed.
  mayWriteIn: (folder) => accessSync(`${folder}/.`, constants.W_OK),
  free: (folder) => {
    const { bavail, bsize, blocks } = statfsSync(folder);
    return blocks === 0 ? null : bavail * bsize;
  },
  list: (folder) => readdirSync(folder, { withFileTypes: true }),
  makeFolder: (path) => mkdirSync(path),
  openSource: (path) => openSync(path, withoutWaiting),
  openNew: (path) => openSync(path, 'wx'),
  openAgain: (path) => openSync(path, 'r+'),
  fstat: (descriptor) => fstatSync(descriptor, { bigint: true }),
  read: (descriptor, into, at) => readSync(descriptor, into, 0, into.length, at),
  write: (descriptor, bytes) => writeSync(descriptor, bytes),
  sync: fsyncSync,
  close: closeSync,
  rename: renameSync,
  removeFile: unlinkSync,
  removeEmpty: rmdirSync,
  removeAll: (path) => rmSync(path, { recursive: true, force: true, maxRetries: 2 }),
};
