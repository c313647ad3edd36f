import { sha256 } from '../files/digest.ts';
import type { Instrument } from '../instruments/instrument.ts';
import { agreesWithInstruments } from '../keep/keep-file/agrees-with-instruments.ts';
import { isOneDefinition } from '../keep/keep-file/one-definition.ts';
import type { Plan } from '../keep/plan.ts';
import type { Template } from '../template/template.ts';
import { inputError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { finding, type Finding } from '../terms/finding.ts';
import { choiceForPlan, chooseTemplate, type TemplateChoice } from './choose-template.ts';
import { loadKeepFile } from './keep-file.ts';
import { loadInstruments } from './load-instruments.ts';
import type { Watched } from './work-step.ts';

/** A keep file with all that it was made from, which is as it was then. */
export interface KeepInputs {
  readonly keep: { readonly path: string; readonly sha256: string };
  readonly plan: Plan;
  readonly template: Template;
  /** The disk as seen from the template's folder. */
  readonly files: Files;
  /** The template's folder, seen from the working folder. */
  readonly folder: string;
  readonly instruments: ReadonlyMap<string, Instrument>;
  /** Warnings. */
  readonly findings: readonly Finding[];
}

/** The command that goes by a keep file: it has its own words for what has changed. */
type GoesByKeep = 'trim' | 'memory' | 'worklist' | 'primer' | 'report';

/**
 * Reads a keep file, its template and its instruments, and looks whether its cues are unchanged.
 *
 * @throws {InputError} when an input is not what the plan was made with; a worklist follows the plan, so
 *   that cues which have changed are a warning there
 */
export const keepInputs = async (
  disk: Files,
  path: string,
  choice: TemplateChoice & Watched,
  by: GoesByKeep,
): Promise<KeepInputs> => {
  const keep = await loadKeepFile(disk, path);
  const { plan } = keep;
  const { template, files, folder } = await chooseTemplate(disk, choiceForPlan(choice, plan));
  const templateChanged = `${by}-template-changed` as const;
  const isSame = (plan.template?.sha256 ?? null) === template.sha256;
  // Routes that have changed are for a check to tell of; what is where must be as it was.
  if (!isSame && !(by === 'report' && isSameRig(plan, template))) {
    throw inputError(templateChanged, template.path ?? path, {});
  }
  const instruments = await loadInstruments(files, template, choice.onStep);
  if (plan.instruments.length !== instruments.size) {
    throw inputError(templateChanged, template.path, {});
  }
  for (const one of plan.instruments) {
    const loaded = instruments.get(one.id);
    if (loaded === undefined) throw inputError(templateChanged, template.path, {});
    if (!isOneDefinition(one, loaded)) {
      const changed = `${by}-instrument-changed` as const;
      throw inputError(changed, loaded.source, { instrument: one.id });
    }
  }
  agreesWithInstruments(plan, instruments, keep.path);
  const findings =
    by === 'worklist' ? await changedCues(files, plan, path) : await checkCues(files, plan, by);
  return { keep, plan, template, files, folder, instruments, findings };
};

/** Whether a template has the machines of a plan, and the same instruments in the same players on them. */
const isSameRig = (plan: Plan, { machines, instruments }: Template): boolean => {
  const planned = JSON.stringify([
    plan.machines.map(({ id, budget }) => [id, budget]),
    plan.instruments.map(({ id, machine, player, shares, unloads }) => [
      ...[id, machine, player, shares, unloads],
    ]),
  ]);
  const now = JSON.stringify([
    machines.map(({ id, budget }) => [id, budget]),
    instruments.map(({ id, machine, player }) => [
      ...[id, machine, player.id, player.shares, player.unloads],
    ]),
  ]);
  return planned === now;
};

/** A cue that has changed may ask for more than was planned. */
const checkCues = async (
  files: Files,
  { cues }: Plan,
  by: Exclude<GoesByKeep, 'worklist'>,
): Promise<readonly Finding[]> => {
  for (const cue of cues) {
    for (const { path, sha256: planned } of cue.files) {
      if (by === 'report' && (await files.info(path))?.kind !== 'file') {
        throw inputError('report-cue-gone', path, { cue: cue.id });
      }
      if (sha256(await files.read(path)) === planned) continue;
      throw inputError(`${by}-cue-changed`, path, { cue: cue.id });
    }
  }
  return [];
};

/** Cues that are not as they were, or not there: one warning for all of them. */
const changedCues = async (
  files: Files,
  { cues }: Plan,
  keep: string,
): Promise<readonly Finding[]> => {
  const changed: string[] = [];
  for (const { id, files: own } of cues) {
    for (const { path, sha256: planned } of own) {
      const info = await files.info(path);
      if (info?.kind === 'file' && sha256(await files.read(path)) === planned) continue;
      changed.push(id);
      break;
    }
  }
  if (changed.length === 0) return [];
  return [finding('warning', 'worklist-cues-changed', keep, { cues: changed })];
};
