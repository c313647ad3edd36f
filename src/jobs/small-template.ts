import { parseCueName, withoutVersion } from '../midi/cue-name.ts';
import type { Plan, PlanCue } from '../keep/plan.ts';
import type { Template } from '../template/template.ts';
import type { Files } from '../terms/files.ts';
import type { Placed } from '../trim/place.ts';
import { trimmedTemplate } from '../trim/trimmed-template.ts';
import { findReel } from './find-reel.ts';
import type { PathsOut } from './paths-out.ts';

interface Small {
  readonly plan: Plan;
  readonly template: Template;
  readonly placed: readonly Placed[];
  readonly paths: PathsOut;
  readonly leftOut: readonly string[];
}

/** The text of the template for the smaller instruments. */
export const smallTemplate = async (
  files: Files,
  { plan, template, placed, paths, leftOut }: Small,
): Promise<string> => {
  const { path } = template;
  const text =
    path === null
      ? null
      : new TextDecoder().decode(await files.read(path.slice(path.lastIndexOf('/') + 1)));
  const isWhole = await isWholeReel(files, plan, template);
  const planned = plan.cues.flatMap((cue) => cue.files.map((file) => file.path));
  return trimmedTemplate(text, template, {
    cues: [...new Set(isWhole ? template.cues : planned)].map((one) => paths.fromOut(one)),
    reel: reelOut(plan, template, paths),
    smaller: new Map(
      placed.flatMap((one) => one.definition.instruments.map((id) => [id, one.path] as const)),
    ),
    moved: (one) => paths.fromOut(one),
    settings: plan.settings,
    leftOut,
  });
};

/** The plan is of just the cues that the template names. */
const isWholeReel = async (
  files: Files,
  { cues, settings }: Plan,
  template: Template,
): Promise<boolean> => {
  if (template.cues.length === 0 || settings.newest || settings.without.length > 0) return false;
  const { files: found } = await findReel(files, template.cues, { split: settings.split });
  const planned = new Set(cues.flatMap((cue) => cue.files.map(({ path }) => path)));
  return found.length === planned.size && found.every(({ path }) => planned.has(path));
};

/**
 * The order of the cues that are planned. A cue without a number is called by its path, which is
 * another there; null where nothing changes.
 */
const reelOut = ({ cues }: Plan, { reel }: Template, paths: PathsOut): readonly string[] | null => {
  if (reel === null) return null;
  const idOut = ({ id, files }: PlanCue): string => {
    const { path } = files[0]!;
    return parseCueName(path).id === id ? parseCueName(paths.fromOut(path)).id : id;
  };
  const renamed = reel.flatMap((id) => {
    const exact = cues.find((cue) => cue.id === id);
    if (exact !== undefined) return [idOut(exact)];
    const version = cues.find((cue) => withoutVersion(cue.id) === id);
    return version === undefined ? [] : [withoutVersion(idOut(version))];
  });
  return renamed.length === reel.length && renamed.every((id, i) => id === reel[i])
    ? null
    : renamed;
};
