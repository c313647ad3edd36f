import { inputError, InputError } from '../../terms/errors.ts';
import type { Plan } from '../plan.ts';
import { agreesWithItself } from './agreement/agrees-with-itself.ts';
import { parseJson } from './parse-json.ts';
import { plan as planShape } from './shape/plan-shape.ts';
import { isGroup, type Group } from './shape/shape.ts';
import { pathText, ShapeFaults, type ShapeFault } from './shape/shape-faults.ts';

/**
 * Reads a keep file (`keepset/plan@1`) and makes sure that it is sound: it may have been cut off,
 * edited by hand, or be something else altogether.
 *
 * @param path as the user named it
 * @throws {InputError} when it is no keep file, is cut off, or does not agree with itself; the first
 *   ten faults of a kind are told
 */
export const readKeepFile = (bytes: Uint8Array, path: string): Plan => {
  const value = parseJson(bytes, path);
  const schema = isGroup(value) ? value['schema'] : null;
  if (!isGroup(value) || schema !== 'keepset/plan@1') {
    const found = typeof schema === 'string' ? schema.slice(0, longestName) : null;
    throw inputError('keep-file-schema', path, { found });
  }
  const faults = new ShapeFaults();
  planShape(value, faults);
  const [first, ...others] = faults.found.map(
    (fault) => inputError('keep-file-shape', path, shapeArgs(value, fault)).finding,
  );
  if (first !== undefined) throw new InputError(first, others);
  const plan = value as unknown as Plan;
  agreesWithItself(plan, path);
  return plan;
};

/** Characters that are shown of a name that may be anything. */
const longestName = 60;

const shapeArgs = (value: Group, { path, expected }: ShapeFault) => ({
  at: pathText(path),
  expected,
  instrument: path[0] === 'instruments' ? idOf(value['instruments'], path[1]) : null,
});

const idOf = (instruments: unknown, index: unknown): string | null => {
  if (!Array.isArray(instruments) || typeof index !== 'number') return null;
  const one: unknown = instruments[index];
  return isGroup(one) && typeof one['id'] === 'string' ? one['id'] : null;
};
