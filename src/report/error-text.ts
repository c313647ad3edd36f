import { InputError, TemplateError, UsageError } from '../terms/errors.ts';
import type { Finding, Place, Severity } from '../terms/finding.ts';
import { printable } from '../terms/printable.ts';
import type { Colors } from './colors.ts';
import { messageOf } from './messages.ts';
import type { Words } from './messages/words.ts';

/** An error as data for people and programs. */
export interface WordedError extends Words {
  /** A finding code, `usage` for a wrong command, `internal` for a fault of this program. */
  readonly code: string;
}

const placeParts = (at: Place): readonly string[] => {
  const parts: string[] = [];
  if (at.track !== undefined) parts.push(`track ${String(at.track)}`);
  if (at.bar !== undefined) {
    const beat = at.beat === undefined ? '' : ` beat ${String(at.beat)}`;
    parts.push(`bar ${String(at.bar)}${beat}`);
  } else if (at.tick !== undefined) parts.push(`tick ${String(at.tick)}`);
  if (at.byte !== undefined) parts.push(`byte 0x${at.byte.toString(16)}`);
  return parts;
};

/**
 * Where a finding is, or null when it is about the whole run.
 *
 * @example whereOf(found) // 'cues/1m1.mid (track 3, bar 12 beat 2, byte 0x1a4)'
 */
export const whereOf = ({ file, at }: Pick<Finding, 'file' | 'at'>): string | null => {
  const parts = at === null ? [] : placeParts(at);
  const line =
    at?.line === undefined ? [] : [at.line, ...(at.column === undefined ? [] : [at.column])];
  if (file === null) return parts.length === 0 ? null : parts.join(', ');
  const place = [printable(file), ...line.map(String)].join(':');
  return parts.length === 0 ? place : `${place} (${parts.join(', ')})`;
};

const paintOf = (severity: Severity, colors: Colors): ((text: string) => string) =>
  severity === 'error' ? colors.red : severity === 'warning' ? colors.yellow : colors.cyan;

const lines = (
  severity: Severity,
  { code, message, hint }: WordedError,
  where: string | null,
  colors: Colors,
): string => {
  const label = colors.bold(paintOf(severity, colors)(`${severity}[${code}]`));
  return [
    `${label}: ${message}`,
    ...(where === null ? [] : [`  ${colors.dim('-->')} ${where}`]),
    ...(hint === '' ? [] : [`  ${colors.dim('hint:')} ${hint}`]),
  ].join('\n');
};

/** A finding for the terminal: what, where and what to do, a line each, no newline at the end. */
export const formatFinding = (finding: Finding, { colors }: { readonly colors: Colors }): string =>
  lines(finding.severity, { code: finding.code, ...messageOf(finding) }, whereOf(finding), colors);

/** What an error is about, in the order it was met; none for a wrong command or a fault of ours. */
const findingsOf = (error: unknown): readonly Finding[] =>
  error instanceof InputError || error instanceof TemplateError
    ? [error.finding, ...error.others]
    : [];

/** The words for a wrong command, or for a fault of this program. */
const wordsOf = (error: unknown): WordedError =>
  error instanceof UsageError
    ? { code: 'usage', message: printable(error.message), hint: printable(error.hint) }
    : {
        code: 'internal',
        message: `This should not have happened: ${printable(error instanceof Error ? error.message : String(error))}`,
        hint: 'Your cues and instruments are unchanged. Run it again with --debug and report what it prints.',
      };

/** The words for all that an error says, each message led by its place; at least one. */
export const wordsOfError = (error: unknown): readonly [WordedError, ...WordedError[]] => {
  const [first, ...others] = findingsOf(error).map((found): WordedError => {
    const { message, hint } = messageOf(found);
    const where = whereOf(found);
    return { code: found.code, message: where === null ? message : `${where}: ${message}`, hint };
  });
  return first === undefined ? [wordsOf(error)] : [first, ...others];
};

/** An error for the terminal: a block in the form of {@link formatFinding} for all that it says. */
export const formatError = (error: unknown, look: { readonly colors: Colors }): string => {
  const found = findingsOf(error);
  if (found.length === 0) return lines('error', wordsOf(error), null, look.colors);
  return found.map((one) => formatFinding(one, look)).join('\n');
};
