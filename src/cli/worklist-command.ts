import { Command, InvalidArgumentError, Option } from 'commander';
import { parseNumberList } from '../notation/number-list.ts';
import type { Look } from '../report/look.ts';
import { UsageError } from '../terms/errors.ts';
import type { Worklist } from '../trim/worklist/worklist.ts';
import { asFile, codeFor, emit, emitFindings } from './emit.ts';
import { exitCodesHelp } from './exit-codes.ts';
import { addCommonOptions, outOption, type CommonOptions } from './options.ts';
import type { Outcome } from './outcome.ts';
import { checkOutput, isSamePath, writeOutput } from './output-file.ts';
import {
  instrumentOption,
  keepOption,
  loadedOption,
  middleCOption,
  templateOption,
} from './plan-options.ts';
import { watched } from './progress.ts';
import type { Host } from './streams.ts';

interface Options extends CommonOptions {
  readonly keep: string;
  readonly template?: string;
  readonly instrument?: string;
  readonly middleC?: number;
  readonly loaded?: string;
  readonly done?: readonly number[];
  readonly undo?: readonly number[];
  readonly machine?: string;
  readonly out?: string;
}

const steps = 'Steps:';

/** `--done 3-7,12`: numbers of steps; given again, those too. */
const numbersOption = (flags: string, text: string): Option =>
  new Option(flags, text)
    .argParser((value: string, before: readonly number[] | undefined): readonly number[] => {
      const { numbers, fault } = parseNumberList(value);
      if (fault !== null) throw new InvalidArgumentError(fault);
      return [...(before ?? []), ...numbers];
    })
    .helpGroup(steps);

/** Ticks are lost where no record keeps them; and the record is no place for the list. */
const refuseWithoutRecord = ({ loaded, done, undo, out }: Options): void => {
  if (loaded === undefined && (done !== undefined || undo !== undefined)) {
    throw new UsageError(
      `${done === undefined ? '--undo' : '--done'} ticks steps in a record, and none is named.`,
      'Name the file that keeps numbers and ticks: --loaded loaded.csv',
    );
  }
  if (loaded !== undefined && out !== undefined && isSamePath(out, loaded)) {
    throw new UsageError(
      'The list and the record of what is loaded can not be one file: the record is written anyway.',
      'Name another file: -o list.csv',
    );
  }
};

export const worklistCommand = (host: Host, outcome: Outcome): Command =>
  addCommonOptions(
    new Command('worklist')
      .description('List what to load and unload by hand.')
      .addOption(keepOption())
      .addOption(templateOption())
      .addOption(instrumentOption())
      .addOption(middleCOption())
      .addOption(new Option('--machine <id>', 'of this machine only').helpGroup('Scope:'))
      .addOption(loadedOption('the record of numbers and ticks: loaded.csv').helpGroup(steps))
      .addOption(numbersOption('--done <numbers>', 'tick steps: 3-7,12'))
      .addOption(numbersOption('--undo <numbers>', 'take ticks back'))
      .addOption(outOption()),
    ['table', 'text', 'json', 'csv', 'markdown'],
  )
    .addHelpText(
      'after',
      `
Examples:
  keepset worklist --keep keep.json
  keepset worklist --keep keep.json --loaded loaded.csv --machine b
  keepset worklist --keep keep.json --loaded loaded.csv --done 3-7,12
  keepset worklist --keep keep.json --format markdown -o list.md

With --loaded steps keep their numbers, whatever is planned again. keepset
writes that file; what you write under bytes and note stays in it.
Save your full template under a name of its own before the first step.
${exitCodesHelp}`,
    )
    .action(async (options: Options) => {
      const { keep, instrument, template, loaded, out = '-' } = options;
      refuseWithoutRecord(options);
      if (out !== '-') {
        await checkOutput(out, [keep], { instrument, template, record: loaded }, 'worklist');
      }
      const { worklist } = await import('../jobs/worklist.ts');
      const { worklistTable } = await import('../report/worklist-table.ts');
      const { worklistCsv } = await import('../report/worklist-csv.ts');
      const { worklistMarkdown } = await import('../report/worklist-markdown.ts');
      const result = await watched(options, host, (onStep) =>
        worklist({
          keep,
          loaded,
          done: options.done ?? [],
          undo: options.undo ?? [],
          machine: options.machine,
          template,
          instrument,
          middleC: options.middleC,
          onStep,
        }),
      );
      await emitFindings(result.findings, options, host);
      outcome.code = codeFor(result.findings, options.strict);
      const detailed = (look: Look): Look => ({ ...look, details: options.verbose });
      const names = { template };
      const shapes = {
        table: (list: Worklist, look: Look) => worklistTable(list, names, detailed(look)),
        csv: worklistCsv,
        markdown: (list: Worklist, look: Look) => worklistMarkdown(list, names, detailed(look)),
      };
      if (out === '-') await emit(result, shapes, options, host);
      else await writeOutput(out, await asFile(result, shapes, options), options, host);
    });
