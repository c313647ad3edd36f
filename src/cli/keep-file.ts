import type { Plan } from '../keep/plan.ts';
import { inputError, UsageError } from '../terms/errors.ts';
import { printable } from '../terms/printable.ts';
import type { CommonOptions } from './options.ts';
import type { Host } from './streams.ts';

/** How a keep file begins. */
const beginning = /^\s*\{\s*"schema":\s*"keepset\/plan@/;

/**
 * Finds out before the work whether the keep file can go to `out`. An older keep file gives way to it;
 * anything else that is there stays, inputs first of all: `-o bank.sf2` is a slip of the hand.
 *
 * @param cues the arguments, cues that are left out included: those are inputs too
 * @throws {InputError} `output-unwritable` or `output-exists`
 */
export const checkKeepFile = async (
  out: string,
  cues: readonly string[],
  instrument: string,
): Promise<void> => {
  const { checkWritable } = await import('../files/write-whole.ts');
  await checkWritable(out);
  const { DiskFiles } = await import('../files/disk-files.ts');
  const disk = new DiskFiles();
  const there = await disk.info(out);
  if (there === null) return;
  const { findCues } = await import('../files/find-cues.ts');
  const { refuseInputs } = await import('../files/refuse-inputs.ts');
  const { parseInstrumentSource } = await import('../instruments/soundfont/source.ts');
  await refuseInputs(out, [
    parseInstrumentSource(instrument).path,
    ...(await findCues(disk, cues)),
  ]);
  if (there.size === 0) return;
  if (!beginning.test(new TextDecoder().decode(await disk.read(out, 0, 256)))) {
    throw inputError('output-exists', out, {});
  }
};

/** Why no keep file is made of a plan, or null: what an unreadable cue needs is unknown. */
export const noKeepFile = ({ cues }: Plan): UsageError | null => {
  const unreadable = cues.filter(({ state }) => state === 'unreadable');
  if (unreadable.length === 0) return null;
  const options = unreadable.map(({ id }) => `--without ${quoted(id)}`).join(' ');
  return new UsageError(
    `No keep file was written: ${String(unreadable.length)} of the cues could not be read.`,
    `Export them again, or leave them out on your own word: ${options}`,
  );
};

/** For a shell: names come from files, and a person may paste this. */
const quoted = (id: string): string =>
  /^[\p{L}\p{N} ._/+-]*$/u.test(id) ? `"${id}"` : `'${id.replaceAll("'", `'\\''`)}'`;

/** Writes the keep file in one piece. */
export const writeKeepFile = async (
  out: string,
  result: Plan,
  { format, quiet }: CommonOptions,
  host: Host,
): Promise<void> => {
  const { writeWhole } = await import('../files/write-whole.ts');
  const { toJson } = await import('../report/json.ts');
  const { withMessages } = await import('../report/messages.ts');
  await writeWhole(out, toJson(withMessages(result)));
  if (!quiet && format !== 'json') host.stderr.write(`wrote ${printable(out)}\n`);
};
