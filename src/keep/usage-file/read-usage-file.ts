import type { ZoneUsage } from '../../playback/zone-usage.ts';
import { inputError, type InputError } from '../../terms/errors.ts';
import { jsonFault } from '../keep-file/json-fault.ts';
import type { Fault } from './checks.ts';
import { referenceFault } from './references.ts';
import { usageShape } from './shape.ts';
import { restored, type StoredUsage } from './stored.ts';

/** As long as names in a message may be. */
const mostLetters = 80;

/**
 * Reads a usage file (`keepset/zone-usage@1`) and makes sure that nothing in it leads astray.
 *
 * @param path as the user named it
 * @throws {InputError} when it is none, is cut off, or is not as keepset wrote it
 */
export const readUsageFile = (bytes: Uint8Array, path: string): ZoneUsage => {
  const value = parse(new TextDecoder().decode(bytes), path);
  const schema = schemaOf(value);
  if (schema !== 'keepset/zone-usage@1') throw inputError('usage-file-schema', path, { schema });
  const fault = usageShape(value);
  if (fault !== null) throw badValue(fault, path);
  const usage = value as StoredUsage;
  const astray = referenceFault(usage);
  if (astray !== null) throw badValue(astray, path);
  return restored(usage);
};

/** The error for a fault in a usage file. */
export const badValue = ({ path: keys, expected }: Fault, path: string): InputError => {
  const where = keys
    .map((key) => String(key))
    .reverse()
    .map((key) => shortened(key))
    .join(' › ');
  return inputError('usage-file-value', path, { where, expected });
};

const shortened = (text: string): string =>
  text.length > mostLetters ? `${text.slice(0, 12)}…${text.slice(12 - mostLetters)}` : text;

const parse = (text: string, path: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    throw inputError('usage-file-json', path, {
      cut: jsonFault(text)?.cut === true && text !== '',
    });
  }
};

/** What the file says it is; null when it says nothing. */
const schemaOf = (value: unknown): string | null => {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, 'schema')) return null;
  const { schema } = value as { readonly schema: unknown };
  return typeof schema === 'string' ? shortened(schema) : null;
};
