import { sha256 } from '../files/digest.ts';
import { DiskFiles } from '../files/disk-files.ts';
import { makeCheck } from '../keep/check/make-check.ts';
import type { Check } from '../keep/check/check.ts';
import { partialCues } from '../keep/completeness.ts';
import { makePlan, type PlanInput } from '../keep/make-plan.ts';
import { planCues } from '../keep/plan-cues.ts';
import type { Plan } from '../keep/plan.ts';
import { noKeepFileOf } from '../keep/no-keep-file.ts';
import { keepDifferences } from '../keep/reel/keep-differences.ts';
import { makeReelMemory } from '../keep/reel/make-reel-memory.ts';
import { makeOverview } from '../overview/make-overview.ts';
import type { Overview } from '../overview/overview.ts';
import { toJson } from '../report/json.ts';
import { messageOf, withMessages } from '../report/messages.ts';
import { UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import type { Finding } from '../terms/finding.ts';
import { makeWorklist } from '../trim/worklist/make-worklist.ts';
import { checkReel } from './check-reel.ts';
import { seenFrom } from './choose-template.ts';
import { keepInputs } from './keep-inputs.ts';
import { inputAgain } from './plan-again.ts';
import { preparePlan, type PlanOptions } from './prepare-plan.ts';

export interface ReportOptions extends Omit<PlanOptions, 'rare' | 'headroomCurve'> {
  /**
   * A keep file: the page tells of its plan. `cues` are then held against it, as `check` does, and
   * `without`, `newest`, `acceptPartial` and `split` are about them; without `cues` its own are.
   */
  readonly keep?: string | undefined;
  /** Stands above the page. */
  readonly title?: string | null | undefined;
}

/**
 * What the page for people shows: a plan, whether it is proved, the memory of its reel, what can still
 * be written, and the steps to get there.
 *
 * @throws {InputError} when an input can't be read or trusted, or is not that of the keep file
 * @throws {TemplateError} when the template is not sound
 * @throws {UsageError} when something is not well named, or options contradict each other
 */
export const report = async (options: ReportOptions): Promise<Overview> => {
  const disk = options.files ?? new DiskFiles();
  if (options.keep !== undefined) return reportOfKeep(disk, options.keep, options);
  const { input } = await preparePlan({ ...options, files: disk });
  const plan = makePlan(input);
  const text = toJson(withMessages(plan));
  const keep = { path: null, sha256: sha256(new TextEncoder().encode(text)) };
  return overviewOf({ plan, keep, input, cueFindings: input.findings, named: null }, options);
};

const reportOfKeep = async (
  disk: Files,
  path: string,
  options: ReportOptions,
): Promise<Overview> => {
  refuseBesideKeep(options);
  const inputs = await keepInputs(disk, path, options, 'report');
  const { keep, template, files, folder, instruments } = inputs;
  const plan = { ...inputs.plan, findings: inputs.plan.findings.filter(isWorded) };
  const { input } = await inputAgain(files, plan, template, instruments, false, options.onStep);
  const cues = seenFrom(folder, options.cues ?? []);
  const named =
    cues.length === 0
      ? null
      : await checkReel(
          { keep: { ...keep, plan }, loaded: null, template, instruments, files },
          { ...options, cues },
        );
  const partial = partialCues(planCues(input.files), plan.cues, plan.settings.acceptPartial);
  return overviewOf(
    {
      plan,
      keep: { path: keep.path, sha256: keep.sha256 },
      input,
      cueFindings: [...input.findings, ...partial],
      named,
    },
    options,
  );
};

interface Reported {
  readonly plan: Plan;
  /** Of what is, or would be, its keep file. */
  readonly keep: { readonly path: string | null; readonly sha256: string };
  /** What the plan was made of, or is made of again. */
  readonly input: PlanInput;
  /** What was met in its cues. */
  readonly cueFindings: readonly Finding[];
  /** The check of other cues; null: the plan's own count. */
  readonly named: Check | null;
}

const overviewOf = (
  { plan, keep, input, cueFindings, named }: Reported,
  { title = null, middleC }: ReportOptions,
): Overview => {
  const { template, instruments, files } = input;
  const file = { path: keep.path ?? '', sha256: keep.sha256 };
  const made = makeReelMemory({
    plan: input,
    keep: { sha256: keep.sha256 },
    order: null,
    budgets: {},
    inGroups: false,
    findings: [],
  });
  const differences = keep.path === null ? [] : keepDifferences(plan, made.subjects, keep.path);
  const check =
    named ??
    makeCheck({
      keep: { ...file, plan },
      loaded: null,
      template,
      instruments,
      files,
      accepted: plan.settings.acceptPartial,
      leftOut: plan.settings.without,
      findings: [...template.findings, ...cueFindings],
    });
  const { worklist } = makeWorklist({
    keep: file,
    plan,
    template,
    instruments,
    ledger: null,
    ticks: { done: [], undo: [] },
  });
  const { memory } = made;
  const refused = keep.path === null ? noKeepFileOf(plan) : null;
  const told = { path: keep.path, sha256: refused === null ? keep.sha256 : null, refused };
  return makeOverview({
    ...{ plan, keep: told, title, template, instruments, files, check, worklist },
    middleC: middleC ?? template.middleC,
    memory: { ...memory, findings: [...memory.findings, ...differences] },
    otherNotes: new Map(
      made.subjects.map(({ instrument, tally }) => [instrument.id, tally.otherNotes]),
    ),
    checked: named === null ? 'plan' : 'named',
  });
};

/** A keep file may be of a later version, or edited: what has no words here is left aside. */
const isWorded = (found: Finding): boolean => {
  try {
    return messageOf(found).message !== '';
  } catch (error) {
    if (error instanceof TypeError || error instanceof RangeError) return false;
    throw error;
  }
};

/** A keep file says what was chosen; what is about the cues to check needs cues. */
const refuseBesideKeep = (options: ReportOptions): void => {
  const { cues = [], usage = [], pins = [], without = [], acceptPartial = [] } = options;
  const chosen = [
    ...(usage.length > 0 ? ['--usage'] : []),
    ...(Object.keys(options.settle ?? {}).length > 0 ? ['--settle'] : []),
    ...(Object.keys(options.headroom ?? {}).length > 0 ? ['--headroom'] : []),
    ...(pins.length > 0 ? ['--pin'] : []),
    ...(options.allowUnmapped === true ? ['--allow-unmapped'] : []),
  ];
  if (chosen.length > 0) {
    throw new UsageError(
      `A keep file says what was chosen: it can't go with ${chosen.join(', ')}.`,
      'Leave out --keep to try something else, or make another keep file: keepset plan -o FILE',
    );
  }
  const ofCues = [
    ...(without.length > 0 ? ['--without'] : []),
    ...(options.newest === true ? ['--newest'] : []),
    ...(acceptPartial.length > 0 ? ['--accept-partial'] : []),
    ...((options.split ?? null) === null ? [] : ['--split']),
  ];
  if (cues.length > 0 || ofCues.length === 0) return;
  throw new UsageError(
    `Which cues are meant by ${ofCues.join(', ')}? The keep file says which are its own.`,
    'Name the cues that are to be held against the keep file, or leave that out.',
  );
};
