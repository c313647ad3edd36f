import { DiskFiles } from '../files/disk-files.ts';
import { planCues } from '../keep/plan-cues.ts';
import { keepDifferences } from '../keep/reel/keep-differences.ts';
import { makeReelMemory } from '../keep/reel/make-reel-memory.ts';
import type { ReelMemory } from '../keep/reel/reel-memory.ts';
import type { Machine } from '../template/machine.ts';
import { UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { seenFrom } from './choose-template.ts';
import { cueNamed } from './cue-named.ts';
import { keepInputs } from './keep-inputs.ts';
import { comparisonOf, placementOf, restsOf, type PreparedReel } from './memory-questions.ts';
import { inputAgain } from './plan-again.ts';
import { preparePlan, type PlanOptions } from './prepare-plan.ts';

export interface MemoryOptions extends Omit<PlanOptions, 'rare' | 'headroomCurve'> {
  /** A keep file in place of cues: its cues, and what was chosen then. */
  readonly keep?: string | undefined;
  /** Cues in the order they are loaded in, by id or number: all of them. It asks for groups. */
  readonly order?: readonly string[] | null;
  /** Budgets to try in place of the template's, in bytes, by machine; '': of the only one. */
  readonly budgets?: Readonly<Record<string, number>>;
  /** Cues are loaded group by group: each group must fit, not the reel. */
  readonly inGroups?: boolean;
  /** Tell of one cue when its instruments play and rest: its id or number. */
  readonly cue?: string | null;
  /** Look for machines on which everything fits. */
  readonly place?: boolean;
  /** A table of what players show, as seen from the working folder. */
  readonly compare?: string | null;
}

/**
 * What the cues of a reel need in memory: cue by cue, machine by machine, all at once and in groups
 * that fit (design, section 7).
 *
 * @throws {InputError} when an input can't be read or trusted, or is not that of the keep file
 * @throws {TemplateError} when the template is not sound
 * @throws {UsageError} when a cue or a machine is not well named, or options contradict each other
 */
export const memory = async (options: MemoryOptions): Promise<ReelMemory> => {
  const disk = options.files ?? new DiskFiles();
  const prepared = await prepare(disk, options);
  const { input, keep } = prepared;
  const ids = planCues(input.files).map(({ id }) => id);
  const cue = options.cue ?? null;
  const asked = cue === null ? null : cueNamed(ids, cue);
  const order = options.order ?? null;
  await options.onStep?.({ doing: 'working out', name: 'what fits', count: null });
  const made = makeReelMemory({
    plan: input,
    keep: keep === null ? null : { sha256: keep.sha256 },
    order: order === null ? null : loadingOrder(ids, order),
    budgets: budgetsOf(options.budgets ?? {}, input.template.machines),
    inGroups: options.inGroups === true || order !== null,
    findings: [],
  });
  const differences = keep === null ? [] : keepDifferences(keep.plan, made.subjects, keep.path);
  const compared = await comparisonOf(disk, made, input, options.compare ?? null);
  const result = {
    ...made.memory,
    cue: asked === null ? null : await restsOf(prepared, made, asked),
    placement: options.place === true ? await placementOf(prepared, made) : null,
    comparison: compared.comparison,
  };
  return { ...result, findings: [...result.findings, ...differences, ...compared.findings] };
};

const prepare = async (disk: Files, options: MemoryOptions): Promise<PreparedReel> => {
  if (options.keep === undefined) {
    const { input, files, folder } = await preparePlan({ ...options, files: disk });
    const fromUsage = (options.usage ?? []).length > 0;
    const cues = fromUsage ? null : seenFrom(folder, options.cues ?? []);
    return { input, files, keep: null, cues };
  }
  refuseBesideKeep(options);
  const { keep, plan, template, files, instruments } = await keepInputs(
    disk,
    options.keep,
    options,
    'memory',
  );
  const { input } = await inputAgain(files, plan, template, instruments, false, options.onStep);
  const cues = [...new Set(plan.cues.flatMap((cue) => cue.files.map(({ path }) => path)))];
  return { input, files, keep: { ...keep, plan }, cues };
};

/** A keep file says which cues count, and how. */
const refuseBesideKeep = (options: MemoryOptions): void => {
  const { cues = [], usage = [], pins = [], without = [], acceptPartial = [] } = options;
  const given = [
    ...(cues.length > 0 ? ['cues'] : []),
    ...(usage.length > 0 ? ['--usage'] : []),
    ...(Object.keys(options.settle ?? {}).length > 0 ? ['--settle'] : []),
    ...(Object.keys(options.headroom ?? {}).length > 0 ? ['--headroom'] : []),
    ...(pins.length > 0 ? ['--pin'] : []),
    ...(without.length > 0 ? ['--without'] : []),
    ...(options.newest === true ? ['--newest'] : []),
    ...(acceptPartial.length > 0 ? ['--accept-partial'] : []),
    ...((options.split ?? null) === null ? [] : ['--split']),
  ];
  if (given.length === 0) return;
  throw new UsageError(
    `A keep file says which cues count and what was chosen: it can't go with ${given.join(', ')}.`,
    'Leave out --keep to try something else, or make another keep file: keepset plan -o FILE',
  );
};

/** Names that were taken apart at a comma that is part of a cue's id are joined. */
const whole = (ids: readonly string[], pieces: readonly string[]): readonly string[] => {
  const [first, ...rest] = pieces;
  if (first === undefined) return [];
  const lengths = pieces.map((_, i) => i + 1).reverse();
  const length = lengths.find((n) => ids.includes(pieces.slice(0, n).join(',').trim())) ?? 1;
  const name = length === 1 ? first : pieces.slice(0, length).join(',');
  return [name.trim(), ...whole(ids, length === 1 ? rest : pieces.slice(length))];
};

/** @throws {UsageError} when a cue is unknown, named twice, or left out */
const loadingOrder = (ids: readonly string[], order: readonly string[]): readonly string[] => {
  if (order.length === 0)
    throw new UsageError('The order names no cue.', 'Write --order 1m2,1m1,…');
  const named = whole(ids, order).map((name) => cueNamed(ids, name));
  const twice = named.find((id, i) => named.indexOf(id) !== i);
  if (twice !== undefined) {
    throw new UsageError(`The order names "${twice}" twice.`, 'Each cue is loaded once.');
  }
  const missing = ids.filter((id) => !named.includes(id));
  if (missing.length === 0) return named;
  throw new UsageError(
    `The order leaves out ${missing.slice(0, 20).join(', ')}.`,
    'Name every cue of the reel, each once.',
  );
};

/** @throws {UsageError} when there is no such machine, or one is not named where there are several */
const budgetsOf = (
  budgets: Readonly<Record<string, number>>,
  machines: readonly Machine[],
): Readonly<Record<string, number>> => {
  const ids = machines.map(({ id }) => id);
  const named = Object.entries(budgets).map(([id, bytes]): readonly [string, number] => {
    if (ids.includes(id)) return [id, bytes];
    if (id === '' && ids.length === 1) return [ids[0]!, bytes];
    if (id === '') {
      throw new UsageError(
        `Which machine has that budget? There are ${ids.slice(0, 20).join(', ')}.`,
        `Write the machine before it: --budget ${ids[0] ?? 'a'}=SIZE.`,
      );
    }
    throw new UsageError(
      `No machine is called "${id}".`,
      `There ${ids.length === 1 ? 'is' : 'are'} ${ids.slice(0, 20).join(', ')}.`,
    );
  });
  return Object.fromEntries(named.sort(([a], [b]) => ids.indexOf(a) - ids.indexOf(b)));
};
