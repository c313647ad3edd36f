import { Command, Help, Option } from 'commander';
import { checkCommand } from './check-command.ts';
import { completionCommand } from './completion-command.ts';
import { demoCommand } from './demo-command.ts';
import { diffCommand } from './diff-command.ts';
import { draftCommand } from './draft-command.ts';
import { exitCodesHelp } from './exit-codes.ts';
import { inspectCommand } from './inspect-command.ts';
import { memoryCommand } from './memory-command.ts';
import type { Outcome } from './outcome.ts';
import { planCommand } from './plan-command.ts';
import { primerCommand } from './primer-command.ts';
import { reportCommand } from './report-command.ts';
import type { Host } from './streams.ts';
import { trimCommand } from './trim-command.ts';
import { usageCommand } from './usage-command.ts';
import { version } from './version.ts';
import { whyCommand } from './why-command.ts';
import { worklistCommand } from './worklist-command.ts';

/**
 * Short enough for one screen: of a flag nobody needs to be told that it is off unless given, and of
 * choices the first is what happens without the option.
 */
const optionDescription = (option: Option): string => {
  const { argChoices, description } = option;
  if (argChoices !== undefined) return `${description}: ${argChoices.join(', ')}`;
  return new Help().optionDescription(option).replace(/ \(default: false\)$/, '');
};

/** Every command has options: of those only its own help speaks. */
const subcommandTerm = (command: Command): string =>
  new Help().subcommandTerm(command).replace(' [options]', '');

/** The commands and their options. Nothing but the command line is set up: jobs load when they run. */
export const buildProgram = (host: Host, outcome: Outcome): Command => {
  const program = new Command('keepset')
    .description(
      'Finds the samples a score really reaches, from its exported MIDI files and its instruments: which keys, layers and articulations must stay loaded, and the memory that saves.',
    )
    .version(version(), '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print help')
    .helpCommand('help [command]', 'print help for a command');
  program.addCommand(usageCommand(host, outcome));
  program.addCommand(draftCommand(host, outcome));
  program.addCommand(planCommand(host, outcome));
  program.addCommand(checkCommand(host, outcome));
  program.addCommand(memoryCommand(host, outcome));
  program.addCommand(diffCommand(host, outcome));
  program.addCommand(trimCommand(host, outcome));
  program.addCommand(worklistCommand(host, outcome));
  program.addCommand(primerCommand(host, outcome));
  program.addCommand(reportCommand(host, outcome));
  program.addCommand(whyCommand(host, outcome));
  program.addCommand(inspectCommand(host, outcome));
  program.addCommand(demoCommand(host));
  program.addCommand(completionCommand(host, () => program));
  program.addHelpText(
    'after',
    `
Examples:
  keepset demo --out harbour                    an invented score to try
  keepset draft cues/ -o keepset.yaml           a first template from it
  keepset plan -o keep.json                     what must stay loaded, and why
  keepset check new-cue.mid --keep keep.json    does it need what was dropped?
  keepset trim --keep keep.json --out small     smaller instruments, played

${exitCodesHelp}
Keep your full template safe: keepset never changes it, and neither should you.`,
  );
  for (const command of program.commands) {
    command.addHelpOption(new Option('-h, --help', 'print help').helpGroup('Other:'));
  }
  for (const command of [program, ...program.commands]) {
    command
      .configureHelp({ optionDescription, subcommandTerm })
      .exitOverride()
      .configureOutput({
        writeOut: (text) => host.stdout.write(text),
        writeErr: (text) => host.stderr.write(text),
        outputError: () => undefined,
      });
  }
  return program;
};
