import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';
import { keepsetHere } from './run-here.ts';

/** The built program. Node 20 does not run TypeScript, so the tests of the command line need a build. */
export const program = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));

if (!existsSync(program)) {
  throw new Error('dist/cli/main.js is missing: run "npm run build" (or "npm test") first');
}

/** What a process left behind. */
export interface Ended {
  /** Null when it was killed. */
  readonly code: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

export interface RunOptions {
  /** The working folder. */
  readonly cwd?: string;
  /** Added to an environment that is bare: no colours, no locale, no build server. */
  readonly env?: Readonly<Record<string, string>>;
  /** A module that is loaded before the program. */
  readonly preload?: string;
}

/** A run that takes longer hangs: planning the demo takes 10 s alone, and more beside others. */
const mostSeconds = 240;

/** Runs any command with a bare environment, its output in pipes, its input empty. */
export const runCommand = (
  command: string,
  args: readonly string[],
  { cwd, env = {} }: Pick<RunOptions, 'cwd' | 'env'> = {},
): Promise<Ended> =>
  new Promise((resolve, reject) => {
    const child = spawn(command, args, {
      ...(cwd === undefined ? {} : { cwd }),
      env: { PATH: process.env['PATH'], ...env },
      stdio: ['ignore', 'pipe', 'pipe'],
      timeout: mostSeconds * 1000,
      killSignal: 'SIGKILL',
    });
    const out: Buffer[] = [];
    const err: Buffer[] = [];
    child.stdout.on('data', (bytes: Buffer) => out.push(bytes));
    child.stderr.on('data', (bytes: Buffer) => err.push(bytes));
    child.on('error', reject);
    child.on('close', (code, signal) => {
      if (signal === 'SIGKILL')
        reject(new Error(`killed after ${mostSeconds} s: ${args.join(' ')}`));
      else {
        const [stdout, stderr] = [Buffer.concat(out).toString(), Buffer.concat(err).toString()];
        resolve({ code, stdout, stderr });
      }
    });
  });

/** Runs keepset in a process of its own: for tests of what only a process has, or may do wrong. */
export const spawnKeepset = (args: readonly string[], options: RunOptions = {}): Promise<Ended> => {
  const before = options.preload === undefined ? [] : ['--import', options.preload];
  return runCommand(process.execPath, [...before, program, ...args], options);
};

/**
 * Runs keepset: inside this process, which takes a tenth of the time, or with a `preload` in its own.
 * `tests/cli/same-here.test.ts` shows that both say the same.
 */
export const keepset = (args: readonly string[], options: RunOptions = {}): Promise<Ended> =>
  options.preload === undefined
    ? keepsetHere(dirname(program), args, options.cwd, options.env ?? {})
    : spawnKeepset(args, options);

const stackLine = /^\s+at .*[:(]/m;

/** A clear error: code, what, where and what to do; nothing else on stderr, and no stack. */
export const expectError = (
  { stderr }: Pick<Ended, 'stderr'>,
  code: string,
  where: string | null = null,
): void => {
  const lines = stderr.split('\n');
  const at = lines.findIndex((line) => line.startsWith(`error[${code}]: `));
  expect(at, `no error[${code}] in: ${stderr}`).toBeGreaterThanOrEqual(0);
  expect(lines[at]).toMatch(/: [A-Z"].*[.?]$/);
  const rest = lines.slice(at + 1);
  if (where !== null) expect(rest.shift()).toBe(`  --> ${where}`);
  expect(rest[0]).toMatch(/^ {2}hint: [A-Z].+$/);
  expect(stderr).not.toMatch(stackLine);
};
