import { readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { expect, test } from 'vitest';
import { parse } from 'yaml';
import { keys, type Kind } from '../../src/template/reading/keys.ts';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { bytesOf, cases, errorOf, filesOf, path, readFiles } from './reader-cases.ts';

type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

const schema = JSON.parse(
  readFileSync(new URL('../../src/report/schemas/template@1.json', import.meta.url), 'utf8'),
) as Record<string, Json>;
const validate = new Ajv2020({ strict: true, strictTuples: false, allowUnionTypes: true }).compile(
  schema,
);

/** How YAML is written comes before what a schema sees: it is given values, not text. */
const beforeValues = new Set([
  'yaml-syntax',
  'yaml-shorthand',
  'yaml-encoding',
  'template-too-large',
  'yaml-too-deep',
  'yaml-key-repeated',
]);

/**
 * What is wrong to the reader and not to the schema, and why. A file that has nothing else wrong is
 * right to the schema.
 */
const beyondSchemas: Readonly<Record<string, string>> = {
  'template-undeclared': 'a name has to be the key of another place',
  'template-unassigned': 'how many keys another place has decides',
  'template-reserve': 'two amounts in different units are compared',
  'template-id': 'which signs can be seen is not for a pattern',
  'yaml-repeated': 'names are compared folded, pins by what their ranges mean',
  'template-tracks': 'the disk decides',
  'route-pattern': 'the language of patterns is not that of schemas',
  'route-capture': 'two texts are compared',
  'route-join-captures': 'two texts are compared',
  'yaml-more-faults': 'it only counts',
};

const wrongCodes = async (files: MemoryFiles): Promise<readonly string[]> => {
  const error = await errorOf(readFiles(files));
  if (error === null) return [];
  // Those of the table of tracks have nothing to do with the schema.
  return [error.finding, ...error.others]
    .filter(({ file }) => file === path)
    .map(({ code }) => code);
};

test.each(cases)('reader and schema agree on %s', async (name) => {
  const codes = await wrongCodes(filesOf(name));
  if (codes.some((code) => beforeValues.has(code))) return;
  const value: unknown = parse(new TextDecoder().decode(bytesOf(name)), { logLevel: 'silent' });
  const isWrong = codes.some((code) => !Object.hasOwn(beyondSchemas, code));
  validate(value);
  expect({ codes, errors: validate.errors, right: !isWrong }).toEqual({
    codes,
    errors: isWrong ? (expect.anything() as unknown) : null,
    right: !isWrong,
  });
});

/** What people may put where something else belongs. */
const strangers: readonly Json[] = [
  null,
  true,
  0,
  1,
  -1,
  64,
  200,
  0.5,
  '',
  ' ',
  'word',
  '64',
  '64 GiB',
  '.5 kb',
  '60 ms',
  '9 frames',
  '24 bit',
  '300 MB/s',
  '0 MB/s',
  '.5 gib / S',
  'C4',
  'C2-C4',
  '1-64',
  '0:8',
  'a.sf2',
  '.sf2',
  'a\\b.csv',
  't/a.csv',
  'plain',
  'copy',
  [],
  ['word'],
  [['word']],
  {},
  { word: 1 },
  { word: '1 GiB' },
  { file: 'a.csv' },
  { 5: 6 },
];

/** Each copy of `value` in which one thing is another, is gone, or has a stranger beside it. */
const changes = (value: Json): readonly Json[] => {
  if (Array.isArray(value)) {
    const list = value as readonly Json[];
    return [
      ...strangers,
      ...list.flatMap((item, i) => changes(item).map((changed) => list.with(i, changed))),
      ...list.map((_, i) => list.filter((__, j) => j !== i)),
    ];
  }
  if (value === null || typeof value !== 'object') return strangers;
  const fields = value as Readonly<Record<string, Json>>;
  return [
    ...strangers,
    { ...fields, stranger: 'word' },
    ...Object.entries(fields).flatMap(([key, field]) => [
      ...changes(field).map((changed) => ({ ...fields, [key]: changed })),
      Object.fromEntries(Object.entries(fields).filter(([other]) => other !== key)),
    ]),
  ];
};

const good = parse(new TextDecoder().decode(bytesOf('good-full'))) as Record<string, Json>;

/** Each part by itself: that what it refers to is not there is nothing to a schema. */
test.each(Object.keys(good))(
  'reader and schema agree when one thing is otherwise in %s',
  async (key) => {
    const table = bytesOf('good-full', 'tracks.csv');
    const all = changes(good[key] ?? null);
    const disagreements: unknown[] = [];
    for (const changed of all) {
      const value = { [key]: changed };
      // JSON is YAML.
      const files = { [path]: JSON.stringify(value), 'score/tracks.csv': table };
      const codes = await wrongCodes(new MemoryFiles(files));
      const isWrong = codes.some((code) => !Object.hasOwn(beyondSchemas, code));
      if (validate(value) === isWrong) disagreements.push({ value, codes, says: validate.errors });
    }
    expect(disagreements).toEqual([]);
    expect(all.length).toBeGreaterThanOrEqual(strangers.length);
  },
);

const structuralCodes = async (yaml: string): Promise<readonly string[]> =>
  (await wrongCodes(new MemoryFiles({ [path]: yaml }))).filter(
    (code) => !Object.hasOwn(beyondSchemas, code),
  );

/** Each hint shows one of these; people paste it. */
test.each(
  Object.values(keys).flatMap((known) =>
    Object.entries(known).map(([key, example]) => [key, example] as const),
  ),
)('the example for %s may be pasted: %s', async (key, example) => {
  expect(validate(parse(example))).toBe(true);
  expect(await structuralCodes(`${example}\n`)).toEqual([]);
  expect(example).toMatch(new RegExp(`^${key}:|[{ ]${key}: `, 'u'));
});

/** The keys that the schema knows in each place, by the kinds of the reader. */
const inSchema = (kind: Kind): readonly string[] => {
  const at = (node: Json | undefined, ...way: readonly string[]): Json | undefined =>
    way.reduce<Json | undefined>(
      (here, step) => (here as Record<string, Json> | undefined)?.[step],
      node,
    );
  const top = at(schema, 'properties');
  const group =
    kind === 'template'
      ? schema
      : kind === 'tracks'
        ? at(top, 'tracks', 'anyOf', '1')
        : (at(schema, '$defs', kind) ?? at(top, kind));
  return Object.keys(at(group, 'properties') ?? {});
};

test.each(Object.keys(keys) as readonly Kind[])(
  'reader and schema know the same keys of %s',
  (kind) => {
    expect([...inSchema(kind)].sort()).toEqual(Object.keys(keys[kind]).sort());
  },
);

test('every key of the schema says what it means', () => {
  const silent: string[] = [];
  const described = (node: Json, way: string): void => {
    const { description, $ref, properties } = node as Record<string, Json>;
    const target = typeof $ref === 'string' ? schemaPart($ref) : null;
    if (description === undefined && target?.['description'] === undefined) silent.push(way);
    for (const [key, value] of Object.entries((properties ?? {}) as Record<string, Json>))
      described(value, `${way}/${key}`);
  };
  const schemaPart = (ref: string): Record<string, Json> =>
    (schema['$defs'] as Record<string, Record<string, Json>>)[ref.replace('#/$defs/', '')]!;
  described(schema, '');
  for (const name of ['machine', 'player', 'instrument', 'rule', 'pin', 'settle']) {
    described(schemaPart(name), name);
  }
  expect(silent).toEqual([]);
});
