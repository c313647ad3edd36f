import { spawn, type ChildProcess } from 'node:child_process';
import { createInterface } from 'node:readline';

/** What a program may use before it is stopped. */
export interface Limits {
  /** Wall-clock seconds; the whole process group is killed then. */
  readonly seconds: number;
  /** The size in bytes at which a file it writes is cut off; rounded down to 512. */
  readonly fileBytes: number;
}

/** How a program ended, and what it said. */
export interface RunResult {
  readonly ended: 'exit' | 'time' | 'size';
  /** Null where it was stopped. */
  readonly code: number | null;
  /** The first characters of each stream, up to {@link kept}; empty where lines were passed on. */
  readonly stdout: string;
  readonly stderr: string;
}

/** Characters of a stream that are kept for messages; the rest is read and forgotten. */
const kept = 64 * 1024;

/**
 * FluidSynth opens SDL's sound output on its way, also where it renders to a file. That makes a shared
 * memory file of 64 MiB, which the limit of size would stop; the dummy output makes none.
 */
const silent = { SDL_AUDIODRIVER: 'dummy' };

const running = new Set<ChildProcess>();

const killGroup = (child: ChildProcess): void => {
  if (child.pid === undefined) return;
  try {
    process.kill(-child.pid, 'SIGKILL');
  } catch {
    // It has ended already.
  }
};

process.once('exit', () => {
  for (const child of running) killGroup(child);
});

const collect = (stream: NodeJS.ReadableStream): (() => string) => {
  let text = '';
  stream.setEncoding('utf8');
  stream.on('data', (part: string) => {
    if (text.length < kept) text += part.slice(0, kept - text.length);
  });
  return () => text;
};

/**
 * Runs a program with a limit on its time and on the size of its files.
 *
 * A looped note that is never released makes a synthesiser write for ever. The size is limited by
 * the operating system (`ulimit -f`, whose unit is 512 bytes in a POSIX shell), not by looking at the
 * file now and then: the file is then cut at exactly the same byte in every run, and two cut
 * renders can still be compared.
 *
 * @param onLine receives the lines of standard error, for logs too long to keep.
 */
export const runLimited = async (
  program: string,
  args: readonly string[],
  limits: Limits,
  onLine?: (line: string) => void,
): Promise<RunResult> => {
  const blocks = String(Math.floor(limits.fileBytes / 512));
  const child = spawn(
    'sh',
    ['-c', 'ulimit -f "$1" && shift && exec "$@"', 'sh', blocks, program, ...args],
    { detached: true, stdio: ['ignore', 'pipe', 'pipe'], env: { ...process.env, ...silent } },
  );
  running.add(child);
  const timing = { late: false };
  const timer = setTimeout(() => {
    timing.late = true;
    killGroup(child);
  }, limits.seconds * 1000);
  const stdout = collect(child.stdout);
  let stderr = (): string => '';
  if (onLine === undefined) stderr = collect(child.stderr);
  else createInterface({ input: child.stderr, crlfDelay: Infinity }).on('line', onLine);
  try {
    const [code, signal] = await new Promise<[number | null, NodeJS.Signals | null]>(
      (resolve, reject) => {
        child.once('error', reject);
        child.once('close', (endCode, endSignal) => {
          resolve([endCode, endSignal]);
        });
      },
    );
    const ended = timing.late ? 'time' : signal === 'SIGXFSZ' ? 'size' : 'exit';
    if (ended === 'exit' && signal !== null) throw new Error(`${program} died of ${signal}`);
    return { ended, code: ended === 'exit' ? code : null, stdout: stdout(), stderr: stderr() };
  } finally {
    clearTimeout(timer);
    running.delete(child);
  }
};
