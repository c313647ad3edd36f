import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { findingCodes, messageOf } from '../../src/report/messages.ts';
import { finding, type FindingCode } from '../../src/terms/finding.ts';
import { exampleArgs } from '../report/fixtures/findings.ts';
import { runKeepset } from './built-program.ts';
import { projectFolder } from './pages.ts';
import { outlineSteps } from './outline-steps.ts';
import { markdownTable, schemaTables, type Schema } from './schema-tables.ts';

const schemaFolder = join(projectFolder, 'src/report/schemas');

/** A schema of the project by its name, such as `plan@1`. */
export const readSchema = (name: string): Schema =>
  JSON.parse(readFileSync(join(schemaFolder, `${name}.json`), 'utf8')) as Schema;

/** Files that people write; the other schemas are of what keepset writes. */
const written = ['template@1', 'outline@1'];

const resultSchemas = (): readonly string[] =>
  readdirSync(schemaFolder)
    .map((file) => file.replace(/\.json$/, ''))
    .filter((name) => !written.includes(name))
    .sort();

const jsonTables = (): string =>
  resultSchemas()
    .map((name) => {
      const schema = readSchema(name);
      return `## ${name}\n\n${schema.description ?? ''}\n\n${schemaTables(schema, 3)}`;
    })
    .join('\n\n');

const fenced = (text: string, language = ''): string =>
  `\`\`\`${language}\n${text.trimEnd()}\n\`\`\``;

const help = async (...args: readonly string[]): Promise<string> =>
  (await runKeepset(['help', ...args])).text;

/** The names of all commands, as the program's own help lists them. */
export const commandNames = async (): Promise<readonly string[]> => {
  const [, list = ''] = /\nCommands:\n([^]*?)\n\n/.exec(await help()) ?? [];
  return [...list.matchAll(/^ {2}([a-z]+)/gm)].flatMap(([, name = '']) =>
    name === 'help' ? [] : [name],
  );
};

const commandHelp = async (): Promise<string> => {
  const parts = [];
  for (const name of await commandNames()) parts.push(`## ${name}\n\n${fenced(await help(name))}`);
  return parts.join('\n\n');
};

/** Messages with an example's names and figures. */
const findingTables = (): string => {
  const groups = new Map<string, FindingCode[]>();
  for (const code of findingCodes) {
    const group = code.split('-')[0] ?? '';
    groups.set(group, [...(groups.get(group) ?? []), code]);
  }
  return [...groups]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([group, codes]) => {
      const rows = codes.map((code) => {
        const { message, hint } = messageOf(
          finding('warning', code, 'cues/1m1.mid', exampleArgs[code] as never),
        );
        return [`\`${code}\``, message, hint].map((text) => text.replaceAll('*', '\\*'));
      });
      return `## ${group}-…\n\n${markdownTable(['code', 'for example', 'what to do'], rows)}`;
    })
    .join('\n\n');
};

const makers: Readonly<Record<string, (what: string) => string | Promise<string>>> = {
  commands: commandHelp,
  json: jsonTables,
  findings: findingTables,
  steps: (page) => outlineSteps(readFileSync(join(projectFolder, 'docs', page), 'utf8')),
  example: (file) => fenced(readFileSync(join(projectFolder, 'docs', file), 'utf8'), 'js'),
};

/** What a page has between `<!-- generated: KIND WHAT -->` and `<!-- end of generated -->`. */
const section = /<!-- generated: (\w+) ?(\S*) -->\n[^]*?<!-- end of generated -->/g;

/** A page with its generated sections made anew. */
export const generatedAnew = async (page: string): Promise<string> => {
  let result = page;
  for (const [whole, kind = '', what = ''] of page.matchAll(section)) {
    const make = makers[kind];
    if (make === undefined) throw new Error(`nothing is generated as ${kind}`);
    const mark = `<!-- generated: ${[kind, what].join(' ').trim()} -->`;
    const made = `${mark}\n\n${await make(what)}\n\n<!-- end of generated -->`;
    result = result.replace(whole, () => made);
  }
  return result;
};
