import { existsSync, readdirSync, readFileSync } from 'node:fs';
import {
  parseOutline,
  type ParsedOutline,
} from '../../../src/instruments/outline/reading/parse-outline.ts';
import type { OutlineArticulation } from '../../../src/instruments/outline/outline.ts';
import { plainColors } from '../../../src/report/colors.ts';
import { formatError, formatFinding } from '../../../src/report/error-text.ts';
import { InputError } from '../../../src/terms/errors.ts';

const root = new URL('../../fixtures/outlines/', import.meta.url);

/** How the user named the outline of a case. */
export const path = 'outlines/horns.yaml';

/** One folder a mistake; those that are no mistake begin with `good-`. */
export const cases = readdirSync(root, { withFileTypes: true })
  .filter((entry) => entry.isDirectory())
  .map(({ name }) => name)
  .sort();

export const bytesOf = (name: string): Uint8Array =>
  readFileSync(new URL(`${name}/outline.yaml`, root));

/** What the terminal prints for a case; null: nobody has said so yet. */
export const expectedOf = (name: string): string | null => {
  const file = new URL(`${name}/expected.txt`, root);
  return existsSync(file) ? readFileSync(file, 'utf8') : null;
};

export const parse = (yaml: string | Uint8Array): ParsedOutline =>
  parseOutline(path, typeof yaml === 'string' ? new TextEncoder().encode(yaml) : yaml);

/** The error that reading ends with; anything but an input's own error is a failure. */
export const errorOf = (yaml: string | Uint8Array): InputError | null => {
  try {
    parse(yaml);
    return null;
  } catch (error) {
    if (error instanceof InputError) return error;
    throw error;
  }
};

/** The codes of all that is wrong, in the order it is told. */
export const codesOf = (yaml: string | Uint8Array): readonly string[] => {
  const error = errorOf(yaml);
  return error === null ? [] : [error.finding, ...error.others].map(({ code }) => code);
};

const plain = { colors: plainColors, width: null };

/** What the terminal prints, an error or the findings of what was read. */
export const printed = (yaml: string | Uint8Array): string => {
  const error = errorOf(yaml);
  if (error !== null) return `${formatError(error, plain)}\n`;
  return parse(yaml)
    .findings.map((found) => `${formatFinding(found, plain)}\n`)
    .join('');
};

/** The articulations of an outline of which only these lines matter. */
export const articulationsOf = (
  yaml: string,
  top = 'middle-c: C4',
): readonly OutlineArticulation[] =>
  parse(`${top}\narticulations:\n${yaml.replace(/^/gmu, '  ')}\n`).outline.articulations;
