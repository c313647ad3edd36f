import { Option, type Command } from 'commander';
import type { ColorChoice } from './streams.ts';

/** Shapes that a result may take; `text` is the table by another name. Each command offers some. */
export type Format = 'table' | 'text' | 'json' | 'csv' | 'markdown' | 'html';

/** Options that every command has. */
export interface CommonOptions {
  readonly format: Format;
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

/** `-o FILE`: where the result goes, in the shape that `--format` names. */
export const outOption = (): Option =>
  new Option('-o, --out <file>', 'write the result there; - is stdout').helpGroup(outputGroup);

/** @param formats the shapes that the command offers, the usual one first; others are refused */
export const addCommonOptions = (
  command: Command,
  formats: readonly Format[] = ['table', 'json'],
): Command =>
  command
    .addOption(
      new Option('--format <format>', 'shape of the result')
        .choices([...formats])
        .default(formats[0] ?? 'table')
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

/** An option that may be given more than once. */
const repeatable = (value: string, before: readonly string[] | undefined): readonly string[] => [
  ...(before ?? []),
  value,
];

export const withoutOption = (): Option =>
  new Option('--without <cue>', 'leave a cue out, by its id (repeatable)')
    .argParser(repeatable)
    .helpGroup('Scope:');

export const acceptPartialOption = (): Option =>
  new Option('--accept-partial <cue>', 'it looks incomplete and is not (repeatable)')
    .argParser(repeatable)
    .helpGroup('Scope:');

export const acceptDamageOption = (): Option =>
  new Option('--accept-damage <cue>', 'it is damaged, go on all the same (repeatable)')
    .argParser(repeatable)
    .helpGroup('Scope:');

/** What the user says of the cues; every command that plays them has these. */
export interface ReelFlags {
  readonly without?: readonly string[];
  readonly newest?: boolean;
  readonly acceptPartial?: readonly string[];
  readonly split?: 'markers';
}

export const addReelOptions = (command: Command): Command =>
  command
    .addOption(withoutOption())
    .addOption(new Option('--newest', 'of each cue only the newest version').helpGroup('Scope:'))
    .addOption(
      new Option('--split <at>', 'where to part a file into cues')
        .choices(['markers'])
        .helpGroup('Scope:'),
    )
    .addOption(acceptPartialOption());

/** The same for a job. */
export const reelChoices = ({
  without = [],
  newest = false,
  acceptPartial = [],
  split,
}: ReelFlags) => ({ without, newest, acceptPartial, split: split ?? null });
