import type { Instrument } from '../instruments/instrument.ts';
import type { Check, CheckedLoaded } from '../keep/check/check.ts';
import { checkedReel } from '../keep/check/checked-cues.ts';
import { makeCheck } from '../keep/check/make-check.ts';
import { partialCues } from '../keep/completeness.ts';
import { planCues } from '../keep/plan-cues.ts';
import type { Plan } from '../keep/plan.ts';
import type { Template } from '../template/template.ts';
import type { Files } from '../terms/files.ts';
import { checkCueIds, findReel } from './find-reel.ts';
import type { LoadedKeepFile } from './keep-file.ts';
import { olderCues } from './older-cues.ts';
import { playReel } from './play-reel.ts';
import type { Watched } from './work-step.ts';

/** What cues are held against. */
export interface CheckAgainst {
  readonly keep: LoadedKeepFile;
  readonly loaded: CheckedLoaded | null;
  readonly template: Template;
  readonly instruments: ReadonlyMap<string, Instrument>;
  /** The disk as seen from the template's folder. */
  readonly files: Files;
}

/** Which cues are checked, and how. */
export interface CheckedChoices extends Watched {
  /** As seen from the template's folder; none: those of the template, as they were planned. */
  readonly cues: readonly string[];
  readonly without?: readonly string[] | undefined;
  readonly newest?: boolean | undefined;
  readonly acceptPartial?: readonly string[] | undefined;
  readonly split?: 'markers' | null | undefined;
}

/**
 * Plays cues and holds what they need against a keep file.
 *
 * @throws {InputError} when an argument names nothing
 * @throws {UsageError} when a cue to leave out does not exist
 */
export const checkReel = async (
  { keep, loaded, template, instruments, files }: CheckAgainst,
  asked: CheckedChoices,
): Promise<Check> => {
  const { plan } = keep;
  const { cues, acceptPartial = [] } = asked;
  const choices = await choicesFor(files, template, plan, asked);
  const { usage, leftOut, findings } = await playReel(files, template, instruments, {
    ...choices,
    cues,
    isPartial: cues.length > 0,
    onStep: asked.onStep,
    everyPlace: true,
  });
  const checked = planCues(usage);
  checkCueIds(
    checked.map(({ id }) => id),
    acceptPartial,
  );
  // What was said of a cue holds for that cue, not for a later one of its name.
  const { changed } = checkedReel(plan.cues, checked);
  const accepted = plan.settings.acceptPartial.filter((id) => !changed.has(id));
  const older = await olderCues(files, choices.newest ? leftOut : []);
  const partial = partialCues(checked, [...plan.cues, ...older], [...acceptPartial, ...accepted]);
  await asked.onStep?.({ doing: 'working out', name: 'what is missing', count: null });
  return makeCheck({
    keep,
    loaded,
    template,
    instruments,
    files: usage,
    accepted: [...new Set([...acceptPartial, ...accepted])],
    leftOut: [...new Set(leftOut.map(({ cue }) => cue))],
    findings: [...template.findings, ...findings, ...partial],
  });
};

/** The whole reel is checked as it was planned. What was left out then may be gone now. */
const choicesFor = async (
  files: Files,
  template: Template,
  { settings }: Plan,
  { cues, without = [], newest = false, acceptPartial = [], split = null }: CheckedChoices,
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
