import { pathToFileURL } from 'node:url';

/** The part of the built program that a process runs ({@link keepsetHere}). */
interface Built {
  readonly run: (args: readonly string[], host: unknown) => Promise<number>;
}

/** What a run wrote, and its exit code. */
interface Here {
  readonly code: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** Two runs can not have two working folders at once: the next one waits. */
let last: Promise<unknown> = Promise.resolve();

/** Keeps what is written; like a pipe it is no terminal and has no width. */
const sink = () => {
  const parts: string[] = [];
  return {
    stream: { write: (text: string): boolean => parts.push(text) > 0 },
    text: (): string => parts.join(''),
  };
};

/**
 * Runs the built program's `run` inside this process, with a working folder and an environment of its
 * own for as long as it takes: what a process would do, without the third of a second of starting one.
 *
 * @param folder what `run.js` is in
 */
export const keepsetHere = (
  folder: string,
  args: readonly string[],
  cwd: string | undefined,
  env: Readonly<Record<string, string>>,
): Promise<Here> => {
  const one = async (): Promise<Here> => {
    const built = (await import(pathToFileURL(`${folder}/run.js`).href)) as Built;
    const before = { cwd: process.cwd(), env: process.env };
    const [stdout, stderr] = [sink(), sink()];
    try {
      if (cwd !== undefined) process.chdir(cwd);
      process.env = { PATH: process.env['PATH'], ...env };
      const host = { stdout: stdout.stream, stderr: stderr.stream, env: process.env };
      const code = await built.run(args, host);
      return { code, stdout: stdout.text(), stderr: stderr.text() };
    } finally {
      process.env = before.env;
      process.chdir(before.cwd);
    }
  };
  const next = last.then(one);
  last = next.catch(() => undefined);
  return next;
};
