import pc from 'picocolors';
import { plainColors, type Colors } from '../report/colors.ts';
import type { ErrorLook } from '../report/error-text.ts';
import type { Look } from '../report/look.ts';

/** What the command line needs of a process; tests hand in their own. */
export interface Host {
  readonly stdout: NodeJS.WriteStream;
  readonly stderr: NodeJS.WriteStream;
  readonly env: Readonly<Record<string, string | undefined>>;
}

export type ColorChoice = 'auto' | 'always' | 'never';

/**
 * Whether a stream gets colours: the flag, then NO_COLOR, then FORCE_COLOR (`0` is off), then
 * `TERM=dumb`, then whether the stream is a terminal. Decided here once: the colour library would
 * also ask whether a build server runs it.
 */
const isColored = (
  choice: ColorChoice,
  stream: Pick<NodeJS.WriteStream, 'isTTY'>,
  env: Host['env'],
): boolean => {
  if (choice !== 'auto') return choice === 'always';
  if (isSet(env['NO_COLOR'])) return false;
  if (isSet(env['FORCE_COLOR'])) return env['FORCE_COLOR'] !== '0';
  if (env['TERM'] === 'dumb') return false;
  return stream.isTTY;
};

const isSet = (value: string | undefined): boolean => value !== undefined && value !== '';

export const colorsFor = (
  choice: ColorChoice,
  stream: Pick<NodeJS.WriteStream, 'isTTY'>,
  env: Host['env'],
): Colors => (isColored(choice, stream, env) ? pc.createColors(true) : plainColors);

export interface LookFlags {
  readonly color: ColorChoice;
  readonly ascii: boolean;
  readonly wide: boolean;
}

const terminalWidth = 80;

/** How tables look on stdout: cut to a terminal's width, never when piped or `--wide`. */
export const lookOf = ({ color, ascii, wide }: LookFlags, { stdout, env }: Host): Look => ({
  colors: colorsFor(color, stdout, env),
  ascii: ascii || !speaksUnicode(env),
  width: wide || !stdout.isTTY ? null : stdout.columns || terminalWidth,
});

/** How findings and errors look on stderr: set to a terminal's width, each in one line when piped. */
export const errorLookOf = (
  color: ColorChoice,
  { stderr, env }: Pick<Host, 'stderr' | 'env'>,
): ErrorLook => ({
  colors: colorsFor(color, stderr, env),
  width: stderr.isTTY ? stderr.columns || terminalWidth : null,
});

/** The locale's answer; without one, yes. */
const speaksUnicode = (env: Host['env']): boolean => {
  const locale = [env['LC_ALL'], env['LC_CTYPE'], env['LANG']].find(isSet);
  return locale === undefined || /utf-?8/i.test(locale);
};
