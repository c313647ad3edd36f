import { DiskFiles } from '../files/disk-files.ts';
import { agreesWithInstruments } from '../keep/keep-file/agrees-with-instruments.ts';
import type { Instrument } from '../instruments/instrument.ts';
import type { Check, CheckedLoaded } from '../keep/check/check.ts';
import type { Plan } from '../keep/plan.ts';
import type { Template } from '../template/template.ts';
import { inputError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { ledgerProgress } from '../trim/worklist/ledger/ledger.ts';
import { loadedPlan } from '../trim/worklist/loaded-state.ts';
import { checkReel } from './check-reel.ts';
import { choiceForPlan, chooseTemplate, seenFrom, type TemplateChoice } from './choose-template.ts';
import { loadKeepFile } from './keep-file.ts';
import { loadLedger } from './ledger-file.ts';
import { loadInstruments } from './load-instruments.ts';
import type { Watched } from './work-step.ts';

export interface CheckOptions extends TemplateChoice, Watched {
  /** The keep file. */
  readonly keep: string;
  /** The record of a worklist: what is loaded by it is checked, not what the keep file keeps. */
  readonly loaded?: string | undefined;
  /** Files, folders or patterns; those of the template when left out. */
  readonly cues?: readonly string[];
  /** Ids of cues to leave out; without `cues` those that the plan left out are left out too. */
  readonly without?: readonly string[];
  /** Of each cue only the newest version counts. */
  readonly newest?: boolean;
  /** Cues that look incomplete and are whole by the user's word, beside those of the keep file. */
  readonly acceptPartial?: readonly string[];
  /** One file holds several cues: its markers part them; null: as in the plan. */
  readonly split?: 'markers' | null;
  /** Where files are read from; the disk when left out. */
  readonly files?: Files;
}

/**
 * Finds out whether cues need anything that a plan has dropped, and what could be done then.
 *
 * Nothing that was damaged, not routed, or is not what was planned counts as proved.
 *
 * @throws {InputError} when an argument names nothing, the keep file is not sound, or an instrument
 *   can't be trusted
 * @throws {TemplateError} when the template is not sound
 * @throws {UsageError} when a cue to leave out does not exist
 */
export const check = async (options: CheckOptions): Promise<Check> => {
  const disk = options.files ?? new DiskFiles();
  const planned = await loadKeepFile(disk, options.keep);
  const { template, files, folder } = await chooseTemplate(
    disk,
    choiceForPlan(options, planned.plan),
  );
  const instruments = await loadInstruments(files, template, options.onStep);
  agreesWithInstruments(planned.plan, instruments, planned.path);
  const { plan, loaded } = await loadedNow(disk, planned.plan, template, instruments, options);
  return checkReel(
    { keep: { ...planned, plan }, loaded, template, instruments, files },
    { ...options, cues: seenFrom(folder, options.cues ?? []) },
  );
};

/** The plan as it was made, or as if it kept what the record says is loaded. */
const loadedNow = async (
  disk: Files,
  plan: Plan,
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
  { loaded: path }: CheckOptions,
): Promise<{ readonly plan: Plan; readonly loaded: CheckedLoaded | null }> => {
  if (path === undefined) return { plan, loaded: null };
  const ledger = await loadLedger(disk, path);
  if (ledger === null) throw inputError('path-missing', path, {});
  return {
    plan: loadedPlan(plan, template, instruments, ledger, path),
    loaded: { path, ...ledgerProgress(ledger) },
  };
};
