import { TemplateError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { Faults } from '../notation/document/faults.ts';
import type { Template } from './template.ts';

/** In bytes; a template of a thousand rules has a tenth of it. */
const largest = 2 ** 20;

const refuse = (faults: Faults): never => {
  const [first, ...others] = faults.list();
  // Only asked for where a fault was found.
  throw new TemplateError(first!, others);
};

/**
 * Reads `keepset.yaml` and the table of tracks that it names, which lies relative to its folder.
 *
 * @param path as the user named it, with `/`
 * @param digest the sha256 of parts laid end to end, in hex
 * @throws {TemplateError} with everything that is wrong, by place
 * @throws {InputError} when there is no such file or it can't be read
 */
export const readTemplate = async (
  files: Files,
  path: string,
  digest: (parts: readonly Uint8Array[]) => string,
): Promise<Template> => {
  const faults = new Faults(path);
  const bytes = await files.read(path, 0, largest + 1);
  if (bytes.length > largest) {
    const size = (await files.info(path))?.size ?? bytes.length;
    faults.add(null, 'template-too-large', () => ({ bytes: size, limit: largest }));
    return refuse(faults);
  }
  // Loaded only here: the YAML and schema libraries are of use to nothing else.
  const { readTree } = await import('./reading/read-tree.ts');
  const read = await readTree(bytes, files, faults);
  if (read === null || faults.found) return refuse(faults);
  return { ...read.template, path, sha256: digest([bytes, ...read.table]) };
};
