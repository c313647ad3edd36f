import { plainColors } from '../report/colors.ts';
import type { Look } from '../report/look.ts';
import type { Finding, Severity } from '../terms/finding.ts';
import { exitCodes } from './exit-codes.ts';
import type { CommonOptions } from './options.ts';
import { errorLookOf, lookOf, type Host } from './streams.ts';

/** A result that says what it found on the way. */
interface Found {
  readonly schema: string;
  readonly findings: readonly Finding[];
}

type TableOf<Result> = (result: Result, look: Look) => string;

/** How a result is written for people and for spreadsheets; JSON needs no more than the result. */
interface Shapes<Result> {
  readonly table: TableOf<Result>;
  readonly csv: (result: Result) => string;
  /** Where it is more than the table as Markdown. */
  readonly markdown?: TableOf<Result>;
}

/** A table alone: for commands that have no other. */
type Shaping<Result> = TableOf<Result> | Shapes<Result>;

/** A result as JSON, its findings with their messages. */
export const resultJson = async (result: Found): Promise<string> => {
  const { toJson } = await import('../report/json.ts');
  const { withMessages } = await import('../report/messages.ts');
  return toJson(withMessages(result));
};

/** A result in the shape that was asked for. */
const shaped = async <Result extends Found>(
  result: Result,
  shaping: Shaping<Result>,
  { format }: CommonOptions,
  look: Look,
): Promise<string> => {
  if (format === 'json') return resultJson(result);
  const shapes = typeof shaping === 'function' ? { table: shaping } : shaping;
  if (format === 'table' || format === 'text') return shapes.table(result, look);
  const { csv, markdown }: Partial<Shapes<Result>> = shapes;
  if (format === 'markdown') {
    if (markdown !== undefined) return markdown(result, look);
    const { markdownLook } = await import('../report/markdown/markdown-look.ts');
    const { markdownTitle } = await import('../report/markdown/titles.ts');
    const { toMarkdown } = await import('../report/markdown/to-markdown.ts');
    return toMarkdown(shapes.table(result, markdownLook(look)), markdownTitle(result.schema));
  }
  if (csv === undefined) throw new TypeError('a command offers csv and has none');
  return csv(result);
};

/** A result on stdout, in the shape that was asked for. */
export const emit = async <Result extends Found>(
  result: Result,
  shaping: Shaping<Result>,
  options: CommonOptions,
  host: Host,
): Promise<void> => {
  host.stdout.write(await shaped(result, shaping, options, lookOf(options, host)));
};

/** A result as a file holds it: uncut and without colours. */
export const asFile = <Result extends Found>(
  result: Result,
  shaping: Shaping<Result>,
  options: CommonOptions,
): Promise<string> =>
  shaped(result, shaping, options, { colors: plainColors, ascii: options.ascii, width: null });

const rank: Readonly<Record<Severity, number>> = { error: 0, warning: 1, note: 2 };

/** Findings on stderr, the gravest first: errors always, warnings unless quiet, notes when asked. */
export const emitFindings = async (
  findings: readonly Finding[],
  { format, quiet, verbose, color }: CommonOptions,
  host: Host,
): Promise<void> => {
  if (format === 'json') return;
  const least = quiet ? rank.error : verbose ? rank.note : rank.warning;
  const shown = findings
    .filter(({ severity }) => rank[severity] <= least)
    .sort((a, b) => rank[a.severity] - rank[b.severity]);
  if (shown.length > 0) {
    const { formatFinding } = await import('../report/error-text.ts');
    const look = errorLookOf(color, host);
    for (const one of shown) host.stderr.write(`${formatFinding(one, look)}\n`);
  }
  const hidden = findings.length - shown.length;
  if (hidden > 0 && !quiet) {
    host.stderr.write(
      `${String(hidden)} more ${hidden === 1 ? 'remark' : 'remarks'} with --verbose\n`,
    );
  }
};

/** 2 for errors, and for warnings where they were asked to count. */
export const codeFor = (findings: readonly Finding[], strict: boolean): number => {
  const fails = findings.some(
    ({ severity }) => severity === 'error' || (strict && severity === 'warning'),
  );
  return fails ? exitCodes.badInput : exitCodes.done;
};
