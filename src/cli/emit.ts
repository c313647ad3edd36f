import { formatFinding } from '../report/error-text.ts';
import { toJson } from '../report/json.ts';
import { withMessages } from '../report/messages.ts';
import type { Look } from '../report/look.ts';
import type { Finding, Severity } from '../terms/finding.ts';
import { exitCodes } from './exit-codes.ts';
import type { CommonOptions } from './options.ts';
import { colorsFor, lookOf, type Host } from './streams.ts';

/** A result on stdout, in the shape that was asked for. */
export const emit = <Result extends { readonly findings: readonly Finding[] }>(
  result: Result,
  table: (result: Result, look: Look) => string,
  options: CommonOptions,
  host: Host,
): void => {
  if (options.format === 'json') host.stdout.write(toJson(withMessages(result)));
  else host.stdout.write(table(result, lookOf(options, host)));
};

const rank: Readonly<Record<Severity, number>> = { error: 0, warning: 1, note: 2 };

/** Findings on stderr, the gravest first: errors always, warnings unless quiet, notes when asked. */
export const emitFindings = (
  findings: readonly Finding[],
  { format, quiet, verbose, color }: CommonOptions,
  host: Host,
): void => {
  if (format === 'json') return;
  const least = quiet ? rank.error : verbose ? rank.note : rank.warning;
  const colors = colorsFor(color, host.stderr, host.env);
  const shown = findings
    .filter(({ severity }) => rank[severity] <= least)
    .sort((a, b) => rank[a.severity] - rank[b.severity]);
  for (const one of shown) host.stderr.write(`${formatFinding(one, { colors })}\n`);
  const hidden = findings.length - shown.length;
  if (hidden > 0 && !quiet) {
    host.stderr.write(`${String(hidden)} more ${hidden === 1 ? 'note' : 'notes'} with --verbose\n`);
  }
};

/** 2 for errors, and for warnings where they were asked to count. */
export const codeFor = (findings: readonly Finding[], strict: boolean): number => {
  const fails = findings.some(
    ({ severity }) => severity === 'error' || (strict && severity === 'warning'),
  );
  return fails ? exitCodes.badInput : exitCodes.done;
};
