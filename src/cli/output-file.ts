import { resolve } from 'node:path';
import { inputError } from '../terms/errors.ts';
import { printable } from '../terms/printable.ts';
import type { CommonOptions } from './options.ts';
import type { Host } from './streams.ts';

/** How results begin as JSON, or as CSV, by what made them. */
const beginnings = {
  plan: /^\s*\{\s*"schema":\s*"keepset\/plan@/,
  usage: /^\s*\{\s*"schema":\s*"keepset\/(?:zone-)?usage@/,
  check: /^\s*\{\s*"schema":\s*"keepset\/check@|^instrument,machine,copy,zone,/,
  diff: /^\s*\{\s*"schema":\s*"keepset\/diff@|^action,machine,instrument,copy,/,
  why: /^\s*\{\s*"schema":\s*"keepset\/why@/,
  // The comment at the beginning of a page is that of `pageBeginning`.
  report: /^\s*\{\s*"schema":\s*"keepset\/report@|^<!doctype html>\s*<!-- keepset\/report@/,
  memory: /^\s*\{\s*"schema":\s*"keepset\/memory@|^cue,machine,instrument,bytes,/,
  // Lists in other shapes are there to be ticked: what a person has ticked is not written over.
  worklist: /^\s*\{\s*"schema":\s*"keepset\/worklist@/,
} as const;

interface OutputChoice {
  readonly instrument?: string | undefined;
  readonly template?: string | undefined;
  /** Another file that is read if it is there. */
  readonly record?: string | undefined;
}

/**
 * Finds out before the work whether a result can go to `out`. An older result of the same kind, as
 * JSON, gives way to it; anything else that is there stays, inputs first of all: `-o bank.sf2` is a slip of the hand.
 *
 * @param cues the arguments, cues that are left out included: those are inputs too
 * @param choice the template and the instrument as the user wrote them
 * @throws {InputError} `output-unwritable` or `output-exists`
 */
export const checkOutput = async (
  out: string,
  cues: readonly string[],
  { instrument, template = 'keepset.yaml', record }: OutputChoice,
  kind: keyof typeof beginnings,
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
  const banks = instrument === undefined ? [] : [parseInstrumentSource(instrument).path];
  const records = record === undefined ? [] : [record];
  await refuseInputs(out, [template, ...banks, ...records, ...(await findCues(disk, cues))]);
  if (there.size === 0) return;
  if (!beginnings[kind].test(new TextDecoder().decode(await disk.read(out, 0, 256)))) {
    throw inputError('output-exists', out, {});
  }
};

/** Whether two paths name one file by their letters: it need not be there. */
export const isSamePath = (one: string, other: string): boolean => resolve(one) === resolve(other);

/** Writes a result in one piece, and says so. */
export const writeOutput = async (
  out: string,
  text: string,
  { format, quiet }: CommonOptions,
  host: Host,
): Promise<void> => {
  const { writeWhole } = await import('../files/write-whole.ts');
  await writeWhole(out, text);
  if (!quiet && format !== 'json') host.stderr.write(`wrote ${printable(out)}\n`);
};
