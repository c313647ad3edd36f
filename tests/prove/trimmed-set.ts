import { execFile } from 'node:child_process';
import { readFile, stat } from 'node:fs/promises';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** The part of `keepset/trim@1` that the proofs use. */
interface TrimJson {
  readonly schema: string;
  readonly dryRun: boolean;
  readonly instruments: readonly {
    readonly id: string;
    readonly outcome: string;
    readonly path: string | null;
    readonly disk: { readonly before: number; readonly after: number };
  }[];
}

/** A smaller instrument as the command wrote it, and what it says of its size. */
export interface TrimmedInstrument {
  readonly id: string;
  /** Its definition on the disk. */
  readonly file: string;
  /** Bytes of its files, all there were and all that are written. */
  readonly before: number;
  readonly after: number;
}

const program = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));

/** Runs a command as a user does. @throws {Error} unless it ends with 0, with what it said */
export const keepset = (...args: readonly string[]): Promise<string> =>
  new Promise((resolve, reject) => {
    const limits = { timeout: 300_000, maxBuffer: 512 * 1024 * 1024 };
    execFile(process.execPath, [program, ...args], limits, (error, stdout, stderr) => {
      if (error === null) resolve(stdout);
      else reject(new Error(`keepset ${args.join(' ')}: ${String(error.code)}\n${stderr}`));
    });
  });

const trimOf = (text: string): TrimJson => {
  const trim = JSON.parse(text) as TrimJson;
  if (trim.schema !== 'keepset/trim@1' || trim.dryRun) throw new Error(`not a trim: ${text}`);
  return trim;
};

/**
 * Trims what a keep file keeps into the new folder `out`; in the order of the template.
 *
 * @param template where the plan was made with one.
 */
export const trimKeep = async (
  keep: string,
  out: string,
  template: string | null = null,
): Promise<readonly TrimmedInstrument[]> => {
  const more = template === null ? [] : ['--template', template];
  const args = ['--keep', keep, ...more, '--out', out, '--format', 'json'];
  const said = trimOf(await keepset('trim', ...args));
  const written = trimOf(await readFile(path.join(out, 'trim.json'), 'utf8'));
  if (JSON.stringify(written.instruments) !== JSON.stringify(said.instruments)) {
    throw new Error(`${out}: the list in the folder is not what the command has said`);
  }
  return said.instruments.map(({ id, outcome, path: inside, disk }) => {
    if (outcome !== 'trimmed' || inside === null) throw new Error(`${id} is ${outcome}`);
    return { id, file: path.join(out, inside), ...disk };
  });
};

/**
 * Plans cues on one bank and trims the bank for them, both through the command line. Nothing is
 * settled, so what is in doubt is kept. Sizes are held against the disk's own.
 *
 * @param out a new folder; the keep file is written beside it.
 */
export const trimBankFor = async (
  cues: readonly string[],
  bank: string,
  out: string,
): Promise<TrimmedInstrument> => {
  await keepset('plan', ...cues, '--instrument', bank, '-o', `${out}.json`);
  const [trimmed, ...others] = await trimKeep(`${out}.json`, out);
  if (trimmed === undefined || others.length > 0) throw new Error(`not one bank in ${out}`);
  const [before, after] = [(await stat(bank)).size, (await stat(trimmed.file)).size];
  if (trimmed.before !== before || trimmed.after !== after) {
    throw new Error(`${trimmed.file} has ${String(after)} of ${String(before)} bytes`);
  }
  return trimmed;
};
