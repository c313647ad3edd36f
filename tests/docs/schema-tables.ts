/** As much of JSON Schema as the project's own schemas use. */
export interface Schema {
  readonly $ref?: string;
  readonly $defs?: Readonly<Record<string, Schema>>;
  readonly description?: string;
  readonly type?: string | readonly string[];
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly examples?: readonly unknown[];
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly items?: Schema | false;
  readonly prefixItems?: readonly Schema[];
  readonly properties?: Readonly<Record<string, Schema | boolean>>;
  readonly additionalProperties?: Schema | boolean;
}

const nameOf = (ref: string): string => ref.slice(ref.lastIndexOf('/') + 1);

const code = (value: unknown): string =>
  value === null ? 'null' : `\`${typeof value === 'string' ? value : JSON.stringify(value)}\``;

const joined = (words: readonly string[]): string => [...new Set(words)].join(' or ');

/** What may stand there, in a few words. A part with a table of its own is named by its name. */
const kindOf = (schema: Schema): string => {
  const { $ref, type, items, anyOf, oneOf } = schema;
  if ($ref !== undefined) return nameOf($ref);
  if (schema.const !== undefined) return code(schema.const);
  if (schema.enum !== undefined) return joined(schema.enum.map(code));
  const choices = anyOf ?? oneOf;
  if (choices !== undefined && type === undefined) return joined(choices.map(kindOf));
  if (schema.prefixItems !== undefined) return `[${schema.prefixItems.map(kindOf).join(', ')}]`;
  if (typeof items === 'object') return `list of ${kindOf(items)}`;
  if (typeof schema.additionalProperties === 'object' && schema.properties === undefined) {
    return `by name: ${kindOf(schema.additionalProperties)}`;
  }
  return joined(typeof type === 'string' ? [type] : (type ?? ['anything']));
};

/** The part of a list or of a choice that has keys of its own. */
const inner = (schema: Schema): readonly [Schema, string] | null => {
  if (schema.properties !== undefined) return [schema, ''];
  if (typeof schema.items === 'object') {
    const found = inner(schema.items);
    return found && [found[0], `[]${found[1]}`];
  }
  for (const choice of schema.anyOf ?? schema.oneOf ?? []) {
    const found = inner(choice);
    if (found !== null) return found;
  }
  if (typeof schema.additionalProperties === 'object') {
    const found = inner(schema.additionalProperties);
    return found && [found[0], `.NAME${found[1]}`];
  }
  return null;
};

type Row = readonly [key: string, kind: string, meaning: string];

const rowsOf = (schema: Schema, prefix: string, defs: Readonly<Record<string, Schema>>): Row[] =>
  Object.entries(schema.properties ?? {}).flatMap(([key, value]): Row[] => {
    if (typeof value === 'boolean') return [];
    const part = inner(value);
    const kind =
      part === null ? kindOf(value) : kindOf(value).replace(/\bobject\b/, 'the keys below');
    const seen = value.$ref === undefined ? undefined : defs[nameOf(value.$ref)];
    const own = value.description ?? (seen?.properties === undefined ? seen?.description : '');
    const examples = value.examples ?? seen?.examples;
    const meaning = `${own ?? ''}${examples === undefined ? '' : ` Such as ${examples.map(code).join(', ')}.`}`;
    return [
      [`${prefix}${key}`, kind, meaning.trim()],
      ...(part === null ? [] : rowsOf(part[0], `${prefix}${key}${part[1]}.`, defs)),
    ];
  });

const cell = (text: string): string => text.replaceAll('|', '\\|').replaceAll('\n', ' ');

/** A table in Markdown. */
export const markdownTable = (
  head: readonly string[],
  rows: readonly (readonly string[])[],
): string =>
  [head, head.map(() => '---'), ...rows]
    .map((row) => `| ${row.map(cell).join(' | ')} |`)
    .join('\n');

const tableOf = (schema: Schema, defs: Readonly<Record<string, Schema>>): string =>
  markdownTable(
    ['key', 'holds', 'meaning'],
    rowsOf(schema, '', defs).map(([key, kind, meaning]) => [`\`${key}\``, kind, meaning]),
  );

/** Every key of a schema: a table of the whole, and one for each part that has a name. */
export const schemaTables = (schema: Schema, level: number): string => {
  const defs = schema.$defs ?? {};
  const plain: Row[] = [];
  const parts: string[] = [];
  for (const [name, part] of Object.entries(defs)) {
    const found = inner(part);
    if (found === null) plain.push([name, kindOf(part), part.description ?? '']);
    else {
      const about = part.description === undefined ? '' : `${part.description}\n\n`;
      parts.push(`${'#'.repeat(level)} \`${name}\`\n\n${about}${tableOf(found[0], defs)}`);
    }
  }
  const words =
    plain.length === 0
      ? []
      : [
          `${'#'.repeat(level)} Values\n\n${markdownTable(
            ['name', 'holds', 'meaning'],
            plain.map(([name, kind, meaning]) => [`\`${name}\``, kind, meaning]),
          )}`,
        ];
  return [tableOf(schema, defs), ...parts, ...words].join('\n\n');
};

/** The names of all keys that a schema knows, wherever they stand. */
export const keysOf = (schema: unknown): ReadonlySet<string> => {
  const keys = new Set<string>();
  const walk = (node: unknown): void => {
    if (typeof node !== 'object' || node === null) return;
    for (const [name, value] of Object.entries(node)) {
      if (name === 'properties') Object.keys(value as object).forEach((key) => keys.add(key));
      walk(value);
    }
  };
  walk(schema);
  return keys;
};
