import { Command } from 'commander';
import { codeFor, emit, emitFindings } from './emit.ts';
import { exitCodesHelp } from './exit-codes.ts';
import { addCommonOptions, type CommonOptions } from './options.ts';
import type { Outcome } from './outcome.ts';
import { middleCOption, templateOption } from './plan-options.ts';
import type { Host } from './streams.ts';

interface Options extends CommonOptions {
  readonly middleC?: number;
  readonly template?: string;
}

/** What the reports call key 60 unless told otherwise. */
const usualOctave = 4;

export const inspectCommand = (host: Host, outcome: Outcome): Command =>
  addCommonOptions(
    new Command('inspect')
      .description('Show one instrument: its articulations, keys, layers, zones and bytes.')
      .argument(
        '<instrument>',
        'bank.sf2, bank.sf2#0:48, strings.sfz, table.csv; with --template an id',
      )
      .addOption(templateOption())
      .addOption(middleCOption()),
    ['table', 'json', 'markdown'],
  )
    .addHelpText(
      'after',
      `
Examples:
  keepset inspect bank.sf2
  keepset inspect bank.sf2#0:48 --verbose       with every layer
  keepset inspect strings.sfz
  keepset inspect horns.csv --middle-c C3
  keepset inspect horns --template keepset.yaml

${exitCodesHelp}`,
    )
    .action(async (instrument: string, options: Options) => {
      const { inspect } = await import('../jobs/inspect.ts');
      const { inspectTable } = await import('../report/inspect-table.ts');
      const { middleC = null, template, verbose } = options;
      const named = template === undefined ? {} : { template };
      const result = await inspect({ instrument, middleC, ...named });
      await emitFindings(result.findings, options, host);
      outcome.code = codeFor(result.findings, options.strict);
      await emit(
        result,
        (inspection, look) =>
          inspectTable(inspection, {
            ...look,
            details: verbose,
            middleC: middleC ?? usualOctave,
          }),
        options,
        host,
      );
    });
