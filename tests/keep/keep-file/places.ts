import type { Plan } from '../../../src/keep/plan.ts';
import { toJson } from '../../../src/report/json.ts';
import { withMessages } from '../../../src/report/messages.ts';

export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

type Step = string | number;

/** As `plan -o` writes it. */
export const keepFileText = (made: Plan): string => toJson(withMessages(made));

export const bytesOf = (value: Json): Uint8Array =>
  new TextEncoder().encode(JSON.stringify(value, null, 2));

/** Every value of a document with the way to it; findings left aside. */
export const placesIn = (
  value: Json,
  path: readonly Step[] = [],
): readonly (readonly [path: readonly Step[], value: Json])[] => {
  if (path[0] === 'findings') return [];
  const inner =
    value === null || typeof value !== 'object'
      ? []
      : Object.entries(value).flatMap(([key, one]) =>
          placesIn(one, [...path, Array.isArray(value) ? Number(key) : key]),
        );
  return [[path, value], ...inner];
};

/** A document with another value at a place; undefined: nothing there. */
export const changed = (document: Json, path: readonly Step[], value: Json | undefined): Json => {
  const [step, ...rest] = path;
  if (step === undefined) return value ?? null;
  const copy = structuredClone(document) as Record<Step, Json>;
  let group = copy;
  for (const one of path.slice(0, -1)) group = group[one] as typeof copy;
  const last = rest.at(-1) ?? step;
  if (value !== undefined) group[last] = value;
  else if (Array.isArray(group)) group.splice(Number(last), 1);
  else Reflect.deleteProperty(group, last);
  return copy;
};

/** What kind of place it is: numbers of items and names of cues left out. */
export const kindOf = (path: readonly Step[]): string =>
  path
    .map((step, i) => (typeof step === 'number' || path[i - 1] === 'cues' ? '*' : step))
    .join('.');
