import { InputError, TemplateError, UsageError } from '../terms/errors.ts';
import type { Finding, Place, Severity } from '../terms/finding.ts';
import { printable } from '../terms/printable.ts';
import type { Colors } from './colors.ts';
import type { Look } from './look.ts';
import { messageOf } from './messages.ts';
import type { Words } from './messages/words.ts';
import { paragraph, type Part } from './paragraph.ts';

/** How findings and errors look: what they say is set to the width, their places stay whole. */
export type ErrorLook = Pick<Look, 'colors' | 'width'>;

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

/** Sentences behind a label, set to a width; further lines stand below it, indented. */
const labelled = (label: Part, text: string, lead: string, width: number | null): string =>
  paragraph([label, text], width === null ? null : width - below.length)
    .map((line, i) => `${i === 0 ? lead : below}${line}`)
    .join('\n');

/** What goes on below its label is indented by this. */
const below = '    ';

const lines = (
  severity: Severity,
  { code, message, hint }: WordedError,
  where: string | null,
  { colors, width }: ErrorLook,
): string => {
  const paint = (text: string): string => colors.bold(paintOf(severity, colors)(text));
  const label = `${severity}[${code}]`;
  return [
    labelled(
      { text: `${label}:`, paint: (text) => `${paint(text.slice(0, -1))}:` },
      message,
      '',
      width,
    ),
    ...(where === null ? [] : [`  ${colors.dim('-->')} ${where}`]),
    ...(hint === '' ? [] : [labelled({ text: 'hint:', paint: colors.dim }, hint, '  ', width)]),
  ].join('\n');
};

/** A finding for the terminal: what, where and what to do, each on a line of its own, no newline at the end. */
export const formatFinding = (finding: Finding, look: ErrorLook): string =>
  lines(finding.severity, { code: finding.code, ...messageOf(finding) }, whereOf(finding), look);

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
export const formatError = (error: unknown, look: ErrorLook): string => {
  const found = findingsOf(error);
  if (found.length === 0) return lines('error', wordsOf(error), null, look);
  return found.map((one) => formatFinding(one, look)).join('\n');
};
