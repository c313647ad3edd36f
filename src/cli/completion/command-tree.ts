import { type Command, type Option } from 'commander';

/** What may be completed: taken from the commands themselves, so that it can not fall behind. */
export interface CommandTree {
  readonly name: string;
  /** Options of the program itself. */
  readonly options: readonly CompletedOption[];
  readonly commands: readonly CompletedCommand[];
}

export interface CompletedCommand {
  readonly name: string;
  /** The first sentence of its description. */
  readonly about: string;
  readonly options: readonly CompletedOption[];
  /** What its arguments are. */
  readonly argument: Completed;
}

export interface CompletedOption {
  /** `--out`; null for an option of one letter alone. */
  readonly long: string | null;
  readonly short: string | null;
  readonly about: string;
  /** null: it takes no value. */
  readonly value: Completed | null;
}

/** Words to choose from, files, folders, or what only a person knows. */
export type Completed =
  | { readonly kind: 'words'; readonly words: readonly string[] }
  | { readonly kind: 'file' | 'folder' | 'free' };

const free: Completed = { kind: 'free' };

export const commandTree = (program: Command): CommandTree => {
  const commands = program.commands.map((command): CompletedCommand => ({
    name: command.name(),
    about: plainly(command.description().replace(/[:.] .*|\.$/su, '')),
    options: optionsOf(command),
    argument: argumentOf(command),
  }));
  const names = commands.map(({ name }) => name);
  return {
    name: program.name(),
    options: optionsOf(program),
    commands: [
      ...commands,
      {
        name: 'help',
        about: 'print help for a command',
        options: [],
        argument: { kind: 'words', words: names },
      },
    ],
  };
};

const optionsOf = (command: Command): readonly CompletedOption[] =>
  command
    .createHelp()
    .visibleOptions(command)
    .map((option) => ({
      long: option.long ?? null,
      short: option.short ?? null,
      about: plainly(option.description),
      value: option.required || option.optional ? valueOf(option) : null,
    }));

const valueOf = ({ argChoices, flags }: Option): Completed => {
  if (argChoices !== undefined) return { kind: 'words', words: argChoices };
  if (flags.endsWith('<file>')) return { kind: 'file' };
  return flags.endsWith('<folder>') ? { kind: 'folder' } : free;
};

/** Arguments that are files: cues, keep files and instruments. Ids are known only to the template. */
const argumentOf = ({ registeredArguments }: Command): Completed => {
  const [first] = registeredArguments;
  if (first === undefined) return free;
  if (first.argChoices !== undefined) return { kind: 'words', words: first.argChoices };
  return { kind: 'file' };
};

/** A shell would read signs of its own in it: quotes and brackets go. */
const plainly = (text: string): string => text.replace(/["'`$\\[\]]/gu, '').replace(/\s+/gu, ' ');
