import { createHash } from 'node:crypto';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { runExample, runKeepset, type Printed } from './built-program.ts';
import { wordsOf } from './words.ts';

/** `DOCS_TIMES=1` prints how long each command took, to find those that make the test slow. */
const tellTimes = process.env['DOCS_TIMES'] === '1';

interface Seen {
  readonly stamp: string;
  readonly digest: string;
}

/** What a command printed, and the files that are otherwise since. */
interface Effect extends Printed {
  readonly written: ReadonlyMap<string, Buffer>;
}

/**
 * Pages begin alike: the same command over the same files is run once. Those that it may read are
 * the demo, what the page had the reader write, and what it names itself.
 */
const known = new Map<string, Effect>();

/** A folder in which the commands of one page are typed. */
export interface WorkFolder {
  readonly write: (path: string, text: string) => void;
  readonly run: (line: string) => Promise<Printed>;
  readonly remove: () => void;
}

/** @param demo the folder of the demo, which is copied in as `.demo` */
export const workFolder = (demo: string): WorkFolder => {
  const folder = mkdtempSync(join(tmpdir(), 'keepset-manual-'));
  cpSync(demo, join(folder, '.demo'), { recursive: true });
  let files = new Map<string, Seen>();
  const byPage = new Set<string>();

  const look = (): ReadonlyMap<string, Buffer> => {
    const now = new Map<string, Seen>();
    const changed = new Map<string, Buffer>();
    for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort()) {
      const at = statSync(join(folder, name));
      if (!at.isFile()) continue;
      const stamp = `${at.mtimeMs} ${at.size} ${at.ino}`;
      const before = files.get(name);
      if (before?.stamp === stamp) now.set(name, before);
      else {
        const bytes = readFileSync(join(folder, name));
        const digest = createHash('sha256').update(bytes).digest('hex');
        now.set(name, { stamp, digest });
        if (before?.digest !== digest) changed.set(name, bytes);
      }
    }
    files = now;
    return changed;
  };

  const keyOf = (line: string): string => {
    const words = wordsOf(line);
    const state = createHash('sha256');
    for (const [name, { digest }] of files) {
      const [top = ''] = name.split('/');
      if (top === '.demo' || byPage.has(name) || words.includes(top)) {
        state.update(`${name} ${digest}\n`);
      }
    }
    return `${line}\n${state.digest('hex')}`;
  };

  const put = (path: string, content: string | Buffer): void => {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  };

  const runAnew = async (line: string): Promise<Printed> => {
    const [name, ...args] = wordsOf(line);
    if (name === 'node') return runExample(args[0] ?? '', folder);
    const home = process.cwd();
    process.chdir(folder);
    try {
      return await runKeepset(args);
    } finally {
      process.chdir(home);
    }
  };

  return {
    write: (path, text) => {
      byPage.add(path);
      put(path, text);
    },
    run: async (line) => {
      look();
      const key = keyOf(line);
      const before = known.get(key);
      if (before !== undefined) {
        for (const [path, bytes] of before.written) put(path, bytes);
        return before;
      }
      const began = performance.now();
      const printed = await runAnew(line);
      if (tellTimes) console.log(`${Math.round(performance.now() - began)} ms: ${line}`);
      known.set(key, { ...printed, written: look() });
      return printed;
    },
    remove: () => rmSync(folder, { recursive: true, force: true }),
  };
};
