import { Option, type Command } from 'commander';
import type { ColorChoice } from './streams.ts';

/** Options that every command has. */
export interface CommonOptions {
  readonly format: 'table' | 'json';
  readonly color: ColorChoice;
  readonly ascii: boolean;
  readonly wide: boolean;
  readonly quiet: boolean;
  readonly verbose: boolean;
  readonly debug: boolean;
  readonly strict: boolean;
}

const outputGroup = 'Output:';
const otherGroup = 'Other:';

const flag = (flags: string, text: string, group: string): Option =>
  new Option(flags, text).default(false, '').helpGroup(group);

export const addCommonOptions = (command: Command): Command =>
  command
    .addOption(
      new Option('--format <format>', 'shape of the result')
        .choices(['table', 'json'])
        .default('table')
        .helpGroup(outputGroup),
    )
    .addOption(
      new Option('--color <when>', 'colours')
        .choices(['auto', 'always', 'never'])
        .default('auto')
        .helpGroup(outputGroup),
    )
    .addOption(flag('--ascii', 'plain ASCII rules and dots', outputGroup))
    .addOption(flag('--wide', 'cut nothing to the width of the terminal', outputGroup))
    .addOption(flag('-q, --quiet', 'only failures on stderr', otherGroup))
    .addOption(flag('-v, --verbose', 'also print remarks and timings on stderr', otherGroup))
    .addOption(flag('--debug', 'print where in the program an error came from', otherGroup))
    .addOption(flag('--strict', 'warnings exit with 2', otherGroup));

export const withoutOption = (): Option =>
  new Option('--without <cue>', 'leave a cue out, by its id (repeatable)')
    .argParser((value: string, before: readonly string[] | undefined) => [...(before ?? []), value])
    .helpGroup('Scope:');
