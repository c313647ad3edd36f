import { DiskFiles } from '../files/disk-files.ts';
import { agreesWithInstruments } from '../keep/keep-file/agrees-with-instruments.ts';
import type { Instrument } from '../instruments/instrument.ts';
import type { Check, CheckedLoaded } from '../keep/check/check.ts';
import { checkedReel } from '../keep/check/checked-cues.ts';
import { makeCheck } from '../keep/check/make-check.ts';
import { partialCues } from '../keep/completeness.ts';
import { planCues } from '../keep/plan-cues.ts';
import type { Plan } from '../keep/plan.ts';
import type { Template } from '../template/template.ts';
import { inputError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { ledgerProgress } from '../trim/worklist/ledger/ledger.ts';
import { loadedPlan } from '../trim/worklist/loaded-state.ts';
import { choiceForPlan, chooseTemplate, seenFrom, type TemplateChoice } from './choose-template.ts';
import { checkCueIds, findReel } from './find-reel.ts';
import { loadKeepFile } from './keep-file.ts';
import { loadLedger } from './ledger-file.ts';
import { loadInstruments } from './load-instruments.ts';
import { olderCues } from './older-cues.ts';
import { playReel } from './play-reel.ts';

export interface CheckOptions extends TemplateChoice {
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
  const instruments = await loadInstruments(files, template);
  agreesWithInstruments(planned.plan, instruments, planned.path);
  const { plan, loaded } = await loadedNow(disk, planned.plan, template, instruments, options);
  const keep = { ...planned, plan };
  const cues = seenFrom(folder, options.cues ?? []);
  const choices = await choicesFor(files, template, plan, { ...options, cues });
  const { usage, leftOut, findings } = await playReel(files, template, instruments, {
    ...choices,
    cues,
    isPartial: cues.length > 0,
    everyPlace: true,
  });
  const checked = planCues(usage);
  checkCueIds(
    checked.map(({ id }) => id),
    options.acceptPartial ?? [],
  );
  // What was said of a cue holds for that cue, not for a later one of its name.
  const { changed } = checkedReel(plan.cues, checked);
  const accepted = plan.settings.acceptPartial.filter((id) => !changed.has(id));
  const older = await olderCues(files, choices.newest ? leftOut : []);
  const partial = partialCues(
    checked,
    [...plan.cues, ...older],
    [...(options.acceptPartial ?? []), ...accepted],
  );
  return makeCheck({
    keep,
    loaded,
    template,
    instruments,
    files: usage,
    accepted: [...new Set([...(options.acceptPartial ?? []), ...accepted])],
    leftOut: [...new Set(leftOut.map(({ cue }) => cue))],
    findings: [...template.findings, ...findings, ...partial],
  });
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

/** The whole reel is checked as it was planned. What was left out then may be gone now. */
const choicesFor = async (
  files: Files,
  template: Template,
  { settings }: Plan,
  { cues = [], without = [], newest = false, acceptPartial = [], split = null }: CheckOptions,
) => {
  const whole = cues.length === 0;
  const cut = split ?? settings.split;
  const leftOut = whole && template.cues.length > 0 ? settings.without : [];
  const there =
    leftOut.length === 0
      ? []
      : (await findReel(files, template.cues, { split: cut })).files.flatMap((file) => file.cues);
  const planned = leftOut.filter((id) => there.some(({ cue }) => cue === id));
  return {
    without: [...new Set([...without, ...planned])],
    newest: newest || (whole && settings.newest),
    acceptPartial,
    split: cut,
  };
};
