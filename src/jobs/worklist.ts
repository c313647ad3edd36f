import { behindLinks } from '../files/behind-links.ts';
import { DiskFiles } from '../files/disk-files.ts';
import { checkWritable, writeWhole } from '../files/write-whole.ts';
import { nearest } from '../notation/nearest.ts';
import { UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import type { Template } from '../template/template.ts';
import { writeLedger } from '../trim/worklist/ledger/write-ledger.ts';
import { makeWorklist } from '../trim/worklist/make-worklist.ts';
import type { Worklist } from '../trim/worklist/worklist.ts';
import type { TemplateChoice } from './choose-template.ts';
import { keepInputs } from './keep-inputs.ts';
import { loadLedger } from './ledger-file.ts';
import type { Watched } from './work-step.ts';

export interface WorklistOptions extends TemplateChoice, Watched {
  /** The keep file. */
  readonly keep: string;
  /** The record of numbers and ticks: read if it is there, and written anew. */
  readonly loaded?: string | undefined;
  /** Numbers of actions that are done, and of those that are not after all: they go into the record. */
  readonly done?: readonly number[];
  readonly undo?: readonly number[];
  /** The list of one machine alone, by its id; the record is of all of them. */
  readonly machine?: string | undefined;
  readonly files?: Files;
  /** Writes the record, whole or not at all; to the disk where it is not given. */
  readonly write?: (path: string, text: string) => Promise<void>;
}

/**
 * The steps by which a person unloads what a plan drops, machine by machine, and loads what is missing
 * (design, section 9).
 *
 * @throws {InputError} when an input is not what the plan was made with, or the record is not sound: it is
 *   then left as it is
 * @throws {TemplateError} when the template is not sound
 * @throws {UsageError} when there is no such machine, or ticks have no record to go into
 */
export const worklist = async (options: WorklistOptions): Promise<Worklist> => {
  const { loaded: path, done = [], undo = [], machine, write = writeWhole } = options;
  const disk = options.files ?? new DiskFiles();
  checkTicks(path, done, undo);
  if (path !== undefined && options.write === undefined) await checkWritable(path);
  const inputs = await keepInputs(disk, options.keep, options, 'worklist');
  if (machine !== undefined) checkMachine(inputs.template, machine);
  const { keep, plan, template, instruments, findings } = inputs;
  const read = path === undefined ? null : await loadLedger(disk, path);
  const made = makeWorklist({
    keep: { path: keep.path, sha256: keep.sha256 },
    plan,
    template,
    instruments,
    ledger: path === undefined ? null : { path, read },
    ticks: { done, undo },
  });
  if (path !== undefined) await write(await behindLinks(path), writeLedger(made.ledger));
  const { worklist: list } = made;
  return {
    ...list,
    machines: list.machines.filter(({ id }) => machine === undefined || id === machine),
    findings: [...findings, ...list.findings],
  };
};

const checkTicks = (
  path: string | undefined,
  done: readonly number[],
  undo: readonly number[],
): void => {
  if (path === undefined && done.length + undo.length > 0) {
    throw new UsageError(
      'There is no record to tick steps in.',
      'Name the file that keeps numbers and ticks: --loaded loaded.csv',
    );
  }
  const both = done.filter((number) => undo.includes(number));
  if (both.length > 0) {
    throw new UsageError(
      `Steps are to be ticked and not ticked at once: ${both.slice(0, 20).join(', ')}.`,
      'Leave each of them in --done or in --undo.',
    );
  }
};

const checkMachine = ({ machines }: Template, wanted: string): void => {
  const ids = machines.map(({ id }) => id);
  if (ids.includes(wanted)) return;
  const near = nearest(wanted, ids);
  throw new UsageError(
    `No machine is called "${wanted}".`,
    near === null ? `The machines are ${ids.slice(0, 20).join(', ')}.` : `Did you mean "${near}"?`,
  );
};
