import { sha256 } from '../files/digest.ts';
import { DiskFiles } from '../files/disk-files.ts';
import { refuseInputs } from '../files/refuse-inputs.ts';
import { checkWritable, writeWhole } from '../files/write-whole.ts';
import { isPrimer } from '../primer/is-primer.ts';
import type { Primer } from '../primer/primer.ts';
import { inputError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { PathsOut } from './paths-out.ts';
import { preparePrimer, type PreparedPrimer, type PrimerChoice } from './prepare-primer.ts';
import { primerResult } from './primer-result.ts';

export interface PrimerOptions extends PrimerChoice {
  /** Where to write it: a new file, or an earlier primer; nothing is written when left out. */
  readonly out?: string | undefined;
}

/** A primer, and the file that it is. */
export interface MadePrimer {
  readonly primer: Primer;
  readonly bytes: Uint8Array;
}

/**
 * Makes a cue that plays every kept zone once: players that load samples when they are first played
 * hold just the keep set after it. It is played through the template before it is written.
 *
 * @throws {InputError} when an input is not what the plan was made with, usage is not wholly known, the
 *   file can't be written, or something else stands at its place
 * @throws {TemplateError} when the template is not sound
 * @throws {UsageError} when there is no such cue or machine
 */
export const primer = async (options: PrimerOptions): Promise<MadePrimer> => {
  const disk = new DiskFiles();
  const { out } = options;
  if (out !== undefined) await checkPlace(disk, out);
  const prepared = await preparePrimer(disk, options);
  const { bytes } = prepared.composed.draft.written;
  const made = primerResult(prepared, sha256(bytes));
  if (out !== undefined) {
    await refuseInputs(out, await inputsOf(prepared));
    await writeWhole(out, bytes);
  }
  return { primer: made, bytes };
};

/** How much of a file tells whether it is a primer. */
const beginning = 256;

/** Only an earlier primer gives way to a new one. */
const checkPlace = async (disk: Files, out: string): Promise<void> => {
  await checkWritable(out);
  const there = await disk.info(out);
  if (there === null || there.size === 0) return;
  if (!isPrimer(await disk.read(out, 0, beginning))) throw inputError('output-exists', out, {});
};

/** Files that must not be written over, as seen from the working folder. */
const inputsOf = async ({
  keep,
  template,
  plan,
  folder,
}: PreparedPrimer): Promise<readonly string[]> => {
  const paths = await PathsOut.from(folder, '.');
  return [
    keep.path,
    ...(template.path === null ? [] : [template.path]),
    ...template.instruments.map(({ source }) => paths.fromHere(source.path)),
    ...plan.cues.flatMap((cue) => cue.files.map(({ path }) => paths.fromHere(path))),
  ];
};
