import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { Writable } from 'node:stream';
import { pathToFileURL } from 'node:url';
import { projectFolder } from './pages.ts';

/** Where the built program is: this checkout, or a build of one's own. */
export const builtFolder = process.env['KEEPSET_BUILT'] ?? projectFolder;

const entry = join(builtFolder, 'dist/cli/run.js');
if (!existsSync(entry)) {
  throw new Error('dist/cli/run.js is missing: run "npm run build" (or "npm test") first');
}

interface Runner {
  readonly run: (args: readonly string[], host: object) => Promise<number>;
}
const { run } = (await import(/* @vite-ignore */ pathToFileURL(entry).href)) as Runner;

/** What a person sees of a command: both streams as one text. */
export interface Printed {
  readonly code: number;
  readonly text: string;
}

/** The manual is printed in a terminal of this width; what is wider than a page is cut as there. */
const columns = 100;

/** Runs the program in this process, in the working folder, at a terminal without colours. */
export const runKeepset = async (args: readonly string[]): Promise<Printed> => {
  const seen: string[] = [];
  const stream = (isTTY: boolean): Writable =>
    Object.assign(
      new Writable({
        decodeStrings: false,
        write: (text: string | Buffer, _, done) => {
          seen.push(String(text));
          done();
        },
      }),
      { isTTY, columns },
    );
  const code = await run(args, {
    stdout: stream(true),
    stderr: stream(false),
    env: { NO_COLOR: '1', LANG: 'C.UTF-8' },
  });
  return { code, text: seen.join('') };
};

/** Runs an example of the manual, as `node FILE` would. */
export const runExample = (file: string, folder: string): Promise<Printed> =>
  new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [join(builtFolder, file)], {
      cwd: folder,
      env: { NO_COLOR: '1' },
      stdio: ['ignore', 'pipe', 'pipe'],
      timeout: 240_000,
    });
    const seen: string[] = [];
    for (const stream of [child.stdout, child.stderr]) {
      stream.setEncoding('utf8').on('data', (text: string) => seen.push(text));
    }
    child.on('error', reject);
    child.on('close', (code) => {
      resolve({ code: code ?? 1, text: seen.join('') });
    });
  });
