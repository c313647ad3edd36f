import { findCues } from '../files/find-cues.ts';
import type { Template } from '../template/template.ts';
import { InputError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';

/**
 * Paths of all files that a template's own cues name, ascending. What names nothing stands for itself:
 * somebody expects cues there.
 *
 * @param files as seen from the template's folder
 */
export const cuesOfTemplate = async (
  files: Files,
  { cues }: Pick<Template, 'cues'>,
): Promise<readonly string[]> => {
  try {
    return await findCues(files, cues);
  } catch (error) {
    if (error instanceof InputError) return cues;
    throw error;
  }
};

/**
 * True when cues were named that are not all of the template's own.
 *
 * @param cues as the user named them; none: those of the template
 * @throws {InputError} when one names nothing
 */
export const isPartOfReel = async (
  files: Files,
  template: Pick<Template, 'cues'>,
  cues: readonly string[],
): Promise<boolean> => {
  if (cues.length === 0 || template.cues.length === 0) return false;
  const named = new Set(await findCues(files, cues));
  return (await cuesOfTemplate(files, template)).some((path) => !named.has(path));
};
