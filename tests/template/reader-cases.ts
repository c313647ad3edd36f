import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { sha256 } from '../../src/files/digest.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plainColors } from '../../src/report/colors.ts';
import { formatError, formatFinding } from '../../src/report/error-text.ts';
import { readTemplate } from '../../src/template/read-template.ts';
import type { Template } from '../../src/template/template.ts';
import { TemplateError } from '../../src/terms/errors.ts';

const root = new URL('../fixtures/template/', import.meta.url);

/** Where the reader finds the template of a case: in a folder, so that paths beside it are tried. */
export const path = 'score/keepset.yaml';

/** One folder a mistake; those that are no mistake begin with `good-`. */
export const cases = readdirSync(root, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name)
  .sort();

export const bytesOf = (name: string, file = 'keepset.yaml'): Uint8Array =>
  readFileSync(new URL(`${name}/${file}`, root));

/** What the terminal prints for a case; null: nobody has said so yet. */
export const expectedOf = (name: string): string | null => {
  const file = new URL(`${name}/expected.txt`, root);
  return existsSync(file) ? readFileSync(file, 'utf8') : null;
};

/** The files of a case as the reader sees them. */
export const filesOf = (name: string): MemoryFiles => {
  const files = readdirSync(new URL(`${name}/`, root)).filter((file) => file !== 'expected.txt');
  return new MemoryFiles(
    Object.fromEntries(files.map((file) => [`score/${file}`, bytesOf(name, file)])),
  );
};

export const readFiles = (files: MemoryFiles): Promise<Template> =>
  readTemplate(files, path, (parts) => sha256(...parts));

export const read = (yaml: string | Uint8Array): Promise<Template> =>
  readFiles(new MemoryFiles({ [path]: yaml }));

/** The error that reading ends with; anything but a template's own error is a failure. */
export const errorOf = async (reading: Promise<Template>): Promise<TemplateError | null> => {
  try {
    await reading;
    return null;
  } catch (error) {
    if (error instanceof TemplateError) return error;
    throw error;
  }
};

/** The codes of all that is wrong, in the order it is told. */
export const codesOf = async (reading: Promise<Template>): Promise<readonly string[]> => {
  const error = await errorOf(reading);
  return error === null ? [] : [error.finding, ...error.others].map(({ code }) => code);
};

const plain = { colors: plainColors, width: null };

/** What the terminal prints, an error or the findings of what was read. */
export const printed = async (reading: Promise<Template>): Promise<string> => {
  const error = await errorOf(reading);
  if (error !== null) return `${formatError(error, plain)}\n`;
  const { findings } = await reading;
  return findings.map((found) => `${formatFinding(found, plain)}\n`).join('');
};
