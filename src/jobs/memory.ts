import { DiskFiles } from '../files/disk-files.ts';
import type { PlanInput } from '../keep/make-plan.ts';
import { planCues } from '../keep/plan-cues.ts';
import type { Plan } from '../keep/plan.ts';
import { keepDifferences } from '../keep/reel/keep-differences.ts';
import { makeReelMemory, type MadeReelMemory } from '../keep/reel/make-reel-memory.ts';
import type { Comparison, CueRests, Placement, ReelMemory } from '../keep/reel/reel-memory.ts';
import type { Machine } from '../template/machine.ts';
import { UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import type { Finding } from '../terms/finding.ts';
import { seenFrom } from './choose-template.ts';
import { cueNamed } from './cue-named.ts';
import { keepInputs } from './keep-inputs.ts';
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

/** What a reel's memory is made of. */
interface Prepared {
  readonly input: PlanInput;
  /** The disk as seen from the template's folder. */
  readonly files: Files;
  readonly keep: { readonly path: string; readonly sha256: string; readonly plan: Plan } | null;
  /** Cues as seen from the template's folder; null: usage was given in their place. */
  readonly cues: readonly string[] | null;
}

const prepare = async (disk: Files, options: MemoryOptions): Promise<Prepared> => {
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
  const { input } = await inputAgain(files, plan, template, instruments);
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

/** @throws {UsageError} when a cue is unknown, named twice, or left out */
const loadingOrder = (ids: readonly string[], order: readonly string[]): readonly string[] => {
  if (order.length === 0)
    throw new UsageError('The order names no cue.', 'Write --order 1m2,1m1,…');
  const named = order.map((name) => cueNamed(ids, name));
  const twice = named.find((id, i) => named.indexOf(id) !== i);
  if (twice !== undefined) {
    throw new UsageError(`The order names "${twice}" twice.`, 'Each cue is loaded once.');
  }
  const missing = ids.filter((id) => !named.includes(id));
  if (missing.length === 0) return named;
  throw new UsageError(
    `The order leaves out ${missing.slice(0, 20).join(', ')}.`,
    'Name every cue, or leave cues out of the reel with --without.',
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

/**
 * How long a sound goes on after its key where the instrument does not say, in seconds: releases are
 * half a second to three (common practice).
 */
const unknownRelease = 3;

const restsOf = async (
  { input, files, cues }: Prepared,
  { memory: reel, loads }: MadeReelMemory,
  id: string,
): Promise<CueRests> => {
  if (cues === null) {
    throw new UsageError(
      'Usage files do not tell when instruments rest.',
      'Name the cues themselves in place of --usage.',
    );
  }
  const { readCueRests } = await import('./cue-rests.ts');
  const { template, instruments } = input;
  const { without, newest, split } = input.reel;
  const options = { cues, without, newest, split, isPartial: true };
  const { times } = await readCueRests(files, template, instruments, id, options, {
    unknown: unknownRelease,
  });
  const place = reel.cues.findIndex((one) => one.id === id);
  const needed = new Map(reel.cues[place]!.instruments.map((one) => [one.id, one]));
  return {
    id,
    ...times,
    assumedRelease: unknownRelease,
    instruments: times.instruments
      .flatMap((one) => {
        const need = needed.get(one.id);
        if (need === undefined) return [];
        const member = loads.members.find(({ instrument }) => instrument.id === one.id)!;
        const { loadRate } = member.player;
        return [
          {
            ...one,
            machine: need.machine,
            bytes: need.bytes,
            loadSeconds:
              loadRate === null ? null : Math.round((need.bytes / loadRate) * 1000) / 1000,
          },
        ];
      })
      .sort((a, b) => b.bytes - a.bytes),
  };
};

const placementOf = async (
  { input: { template }, files }: Prepared,
  { memory: reel, loads, whole }: MadeReelMemory,
): Promise<Placement> => {
  const { placement } = await import('../keep/reel/place.ts');
  const machines = reel.machines.map(({ id, budget }) => ({ id, budget }));
  const placed = await placement(loads, whole, machines);
  if (template.path === null || placed.moves.length === 0) return { ...placed, lines: [] };
  const { placedLines } = await import('../template/placed-lines.ts');
  const name = template.path.slice(template.path.lastIndexOf('/') + 1);
  const text = new TextDecoder().decode(await files.read(name));
  return { ...placed, lines: placedLines(text, placed.moves) };
};

const comparisonOf = async (
  disk: Files,
  { subjects, loads, whole }: MadeReelMemory,
  { template }: PlanInput,
  file: string | null,
): Promise<{
  readonly comparison: Comparison | null;
  readonly findings: readonly Finding[];
}> => {
  if (file === null) return { comparison: null, findings: [] };
  const { readLoaded } = await import('../memory/readings/read-loaded.ts');
  const { compareReadings } = await import('../keep/reel/compare.ts');
  const table = readLoaded(
    await disk.read(file),
    file,
    subjects.map(({ instrument, tally }) => ({
      id: instrument.id,
      copies: tally.copies.map(({ name }) => name),
    })),
  );
  const compared = compareReadings(
    table.rows,
    subjects.map(({ instrument }, m) => ({
      id: instrument.id,
      loadable: loads.members[m]!,
      need: loads.need(m, whole),
    })),
    template.path === null ? null : [...new Set(template.instruments.map(({ player }) => player))],
    file,
  );
  return {
    comparison: { file, ...compared.comparison },
    findings: [...table.findings, ...compared.findings],
  };
};
