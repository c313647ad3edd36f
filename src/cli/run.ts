import { CommanderError, type Command } from 'commander';
import { InputError, TemplateError, UsageError } from '../terms/errors.ts';
import { printable } from '../terms/printable.ts';
import { buildProgram } from './build-program.ts';
import { exitCodes } from './exit-codes.ts';
import { errorLookOf, type ColorChoice, type Host } from './streams.ts';

/**
 * Runs the command line.
 *
 * @param args without the program's own name
 * @returns the exit code
 */
export const run = async (args: readonly string[], host: Host): Promise<number> => {
  const outcome = { code: exitCodes.done as number };
  const program = buildProgram(host, outcome);
  if (args.length === 0) {
    program.outputHelp({ error: true });
    return exitCodes.badInput;
  }
  try {
    await program.parseAsync(commandLine(args, program), { from: 'user' });
    return outcome.code;
  } catch (error) {
    return await failure(error, args, program, host);
  }
};

/** The library answers help for what it does not know with its general help, as a failure. */
const commandLine = (args: readonly string[], program: Command): readonly string[] => {
  const [first, name] = args;
  if (first !== 'help' || name === undefined || name.startsWith('-')) return args;
  if (name === 'help') return [first];
  return program.commands.some((command) => command.name() === name) ? args : [name];
};

const failure = async (
  error: unknown,
  args: readonly string[],
  program: Command,
  host: Host,
): Promise<number> => {
  if (error instanceof CommanderError && error.exitCode === 0) return exitCodes.done;
  const stop = error instanceof CommanderError ? usageErrorOf(error, program) : error;
  if (isJson(args)) {
    const { errorJson } = await import('../report/json.ts');
    host.stdout.write(errorJson(stop));
  } else {
    const { formatError } = await import('../report/error-text.ts');
    host.stderr.write(`${formatError(stop, errorLookOf(colorChoice(args), host))}\n`);
  }
  if (args.includes('--debug') && stop instanceof Error) host.stderr.write(stackOf(stop));
  const isTheirs =
    stop instanceof InputError || stop instanceof TemplateError || stop instanceof UsageError;
  return isTheirs ? exitCodes.badInput : exitCodes.fault;
};

/** Where in the program an error came from; its message may hold names from files. */
const stackOf = ({ stack = '', message }: Error): string =>
  `${stack.replace(message, () => printable(message))}\n`;

/** The library's message without its own prefix; its suggestion becomes the hint. */
const usageErrorOf = ({ message }: CommanderError, program: Command): UsageError => {
  const [, text = message, suggestion] =
    /^(?:error: )?(.*?)(?:\n?\(?(Did you mean .*\?)\)?)?$/s.exec(message) ?? [];
  const sentence = text.trim().replace(/^./, (first) => first.toUpperCase());
  const help = `Run ${program.name()} help to see the commands and options.`;
  return new UsageError(
    /[.!?]$/.test(sentence) ? sentence : `${sentence}.`,
    suggestion === undefined ? help : `${suggestion} ${help}`,
  );
};

/** The options may be what is wrong, so two of them are looked up by hand; the last one counts. */
const lastValue = (args: readonly string[], flag: string): string | undefined => {
  const end = args.indexOf('--');
  const options = end < 0 ? args : args.slice(0, end);
  const at = options.findLastIndex((arg) => arg === flag || arg.startsWith(`${flag}=`));
  return options[at] === flag ? options[at + 1] : options[at]?.slice(flag.length + 1);
};

const isJson = (args: readonly string[]): boolean => lastValue(args, '--format') === 'json';

const colorChoice = (args: readonly string[]): ColorChoice => {
  const value = lastValue(args, '--color');
  return value === 'always' || value === 'never' ? value : 'auto';
};
