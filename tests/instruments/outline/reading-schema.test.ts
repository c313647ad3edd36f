import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import { parse as parseYaml } from 'yaml';
import { keys } from '../../../src/instruments/outline/reading/keys.ts';
import { bytesOf, cases, codesOf } from './reading-cases.ts';

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

const schema = JSON.parse(
  readFileSync(new URL('../../../src/report/schemas/outline@1.json', import.meta.url), 'utf8'),
) as Record<string, Json>;
const validate = new Ajv2020({ strict: true, strictTuples: false, allowUnionTypes: true }).compile(
  schema,
);

/** How YAML is written comes before what a schema sees: it is given values, not text. */
const beforeValues = new Set(['yaml-syntax', 'yaml-shorthand', 'yaml-key-repeated']);

/** What is wrong to the reader alone: parts of the file are held against each other. */
const beyondSchemas = new Set([
  'outline-unknown-articulation',
  'outline-like-circle',
  'outline-name-taken',
  'outline-switch-twice',
  'outline-row-beyond',
  'outline-borrow',
  'yaml-repeated',
  'yaml-more-faults',
]);

/** What stands behind the colon is nothing to a schema: it is `null`, as `~` is. */
const asNull = new Set(['yaml-key-bare']);

test.each(cases)('reader and schema agree on %s', (name) => {
  const bytes = bytesOf(name);
  const codes = codesOf(bytes);
  if (codes.some((code) => beforeValues.has(code))) return;
  const value: unknown = parseYaml(new TextDecoder().decode(bytes), { logLevel: 'silent' });
  const isRight = codes.every((code) => beyondSchemas.has(code) || asNull.has(code));
  const says = name === 'articulations-empty' ? false : isRight;
  expect({ name, right: validate(value), errors: validate.errors }).toMatchObject({ right: says });
});

const top = 'middle-c: C4\narticulations: { sustain: ~ }\n';

/** An example with what an outline has to have beside it, and the articulations it names. */
const whole = (example: string): string => {
  if (example.startsWith('middle-c:')) return `${example}\narticulations: { sustain: ~ }\n`;
  if (example.startsWith('articulations:')) return `middle-c: C4\n${example}\n`;
  if (example.startsWith('switches:')) {
    return `middle-c: C4\narticulations: { sustain: ~, tremolo: ~, staccato: ~ }\n${example}\n`;
  }
  return `${top}${example}\n`;
};

test.each(
  Object.values(keys).flatMap((known) =>
    Object.entries(known).map(([key, example]) => [key, example] as const),
  ),
)('the example for %s may be pasted: %s', (key, example) => {
  const yaml = whole(example);
  expect(codesOf(yaml)).toEqual([]);
  validate(parseYaml(yaml));
  expect(validate.errors).toBeNull();
  expect(example).toMatch(new RegExp(`^${key}:|[{ ]${key}: `, 'u'));
});

test('reader and schema know the same keys', () => {
  const at = (...way: readonly (string | number)[]): readonly string[] => {
    let node: unknown = schema;
    for (const step of way) node = (node as Record<string, unknown>)[step];
    return Object.keys(node as object).sort();
  };
  const known = (group: keyof typeof keys): readonly string[] => Object.keys(keys[group]).sort();
  expect(at('properties')).toEqual(known('outline'));
  expect(at('$defs', 'articulation', 'anyOf', 2, 'properties')).toEqual(known('articulation'));
  expect(at('$defs', 'when', 'anyOf', 1, 'properties')).toEqual(known('when'));
  expect(at('$defs', 'roundRobins', 'anyOf', 1, 'properties')).toEqual(known('roundRobins'));
  expect(at('$defs', 'releases', 'anyOf', 2, 'properties')).toEqual(known('releases'));
  expect(at('$defs', 'legato', 'anyOf', 1, 'properties')).toEqual(known('legato'));
  expect(at('properties', 'switches', 'anyOf', 1, 'properties')).toEqual(known('switches'));
  expect(at('properties', 'measured', 'anyOf', 1, 'properties')).toEqual(known('measured'));
});
