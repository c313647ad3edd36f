import { Command, InvalidArgumentError, Option } from 'commander';
import type { ReelMemory } from '../keep/reel/reel-memory.ts';
import { parseBytes } from '../notation/bytes.ts';
import type { Look } from '../report/look.ts';
import { UsageError } from '../terms/errors.ts';
import { asFile, codeFor, emit, emitFindings } from './emit.ts';
import { exitCodes, exitCodesHelp } from './exit-codes.ts';
import { addCommonOptions, addReelOptions, outOption, type CommonOptions } from './options.ts';
import type { Outcome } from './outcome.ts';
import { checkOutput, writeOutput } from './output-file.ts';
import { addPlanOptions, planChoices, type PlanFlags } from './plan-options.ts';
import { watched } from './progress.ts';
import type { Host } from './streams.ts';

interface Options extends CommonOptions, PlanFlags {
  readonly keep?: string;
  readonly by: 'machine' | 'instrument';
  readonly cue?: string;
  readonly groups?: boolean;
  readonly order?: readonly string[];
  readonly budget?: Readonly<Record<string, number>>;
  readonly place?: boolean;
  readonly compare?: string;
  readonly out?: string;
}

const questions = 'Questions:';

/** `--budget a=4GiB`: another rig than the template's. */
const budgetOption = (): Option =>
  new Option('--budget <machine=size>', 'try what may be filled, the reserve off: a=8GiB')
    .argParser((value: string, before: Readonly<Record<string, number>> | undefined) => {
      const at = value.lastIndexOf('=');
      const bytes = parseBytes(value.slice(at + 1).trim(), true);
      if (bytes === null || bytes <= 0) {
        throw new InvalidArgumentError('Write a machine and a size: a=8GiB, or 8GiB.');
      }
      return { ...before, [at < 0 ? '' : value.slice(0, at).trim()]: bytes };
    })
    .helpGroup(questions);

/** `--order 1m2,1m1`: in which order cues are loaded. */
const orderOption = (): Option =>
  new Option('--order <cues>', 'groups in another order: 1m2,1m1,…')
    .argParser((value: string): readonly string[] =>
      value.split(',').filter((cue) => cue.trim() !== ''),
    )
    .helpGroup(questions);

/** A table of rows has the cues and their instruments, and no place for other answers. */
const refuseCsv = ({ format, groups, order, place, cue, compare }: Options): void => {
  if (format !== 'csv') return;
  const asked = [
    ...(groups === true ? ['--groups'] : []),
    ...(order === undefined ? [] : ['--order']),
    ...(place === true ? ['--place'] : []),
    ...(cue === undefined ? [] : ['--cue']),
    ...(compare === undefined ? [] : ['--compare']),
  ];
  if (asked.length === 0) return;
  throw new UsageError(
    `CSV has a row for each cue and instrument, and no place for what ${asked.join(', ')} asks.`,
    'Ask for it as a table, or with --format json.',
  );
};

export const memoryCommand = (host: Host, outcome: Outcome): Command =>
  addCommonOptions(
    addReelOptions(
      addPlanOptions(
        new Command('memory')
          .description('Show what each cue and the whole reel need in memory, and what fits.')
          .argument('[cues...]', "files, folders, patterns; else the template's")
          .addOption(
            new Option('--keep <file>', 'the cues and choices of a keep file').helpGroup('Scope:'),
          ),
      )
        .addOption(
          new Option('--by <what>', 'what a cue needs, told by')
            .choices(['machine', 'instrument'])
            .default('machine')
            .helpGroup(questions),
        )
        .addOption(
          new Option('--cue <cue>', 'when its instruments play and rest').helpGroup(questions),
        )
        .addOption(
          new Option('--groups', 'which cues can be loaded at a time').helpGroup(questions),
        )
        .addOption(orderOption())
        .addOption(budgetOption())
        .addOption(
          new Option('--place', 'which machine each instrument would go to').helpGroup(questions),
        )
        .addOption(
          new Option('--compare <file>', 'what players show (CSV) against it').helpGroup(questions),
        )
        .addOption(outOption()),
    ),
    ['table', 'json', 'csv', 'markdown'],
  )
    .addHelpText(
      'after',
      `
Examples:
  keepset memory                             keepset.yaml's reel, cue by cue
  keepset memory --keep keep.json --cue 2m3  when instruments of a cue rest
  keepset memory --budget b=16GiB --groups   on a smaller rig, in groups
  keepset memory --place                     move instruments so that all fits
  keepset memory cues/ -i bank.sf2 --format csv -o memory.csv

0: all fits, or no budget is given. 1: something does not fit its machine.
Nothing is loaded, moved or unloaded. Figures are estimates.
${exitCodesHelp}`,
    )
    .action(async (cues: readonly string[], options: Options) => {
      const { keep, instrument, template, compare, out = '-' } = options;
      refuseCsv(options);
      const inputs = [keep, compare, ...(options.usage ?? [])].filter((one) => one !== undefined);
      if (out !== '-') {
        await checkOutput(out, [...cues, ...inputs], { instrument, template }, 'memory');
      }
      const { memory } = await import('../jobs/memory.ts');
      const { fitsBudgets } = await import('../keep/reel/make-reel-memory.ts');
      const { memoryTable } = await import('../report/memory-table.ts');
      const { memoryCsv } = await import('../report/memory-csv.ts');
      const result = await watched(options, host, (onStep) =>
        memory({
          cues,
          keep,
          ...planChoices(options),
          cue: options.cue ?? null,
          inGroups: options.groups === true,
          order: options.order ?? null,
          budgets: options.budget ?? {},
          place: options.place === true,
          compare: compare ?? null,
          onStep,
        }),
      );
      await emitFindings(result.findings, options, host);
      const code = codeFor(result.findings, options.strict);
      const fails = code === exitCodes.done && !fitsBudgets(result);
      outcome.code = fails ? exitCodes.failed : code;
      const table = (shown: ReelMemory, look: Look): string =>
        memoryTable(shown, { ...look, by: options.by, details: options.verbose });
      const shapes = { table, csv: memoryCsv };
      if (out === '-') await emit(result, shapes, options, host);
      else await writeOutput(out, await asFile(result, shapes, options), options, host);
    });
