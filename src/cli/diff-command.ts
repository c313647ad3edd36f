import { Command } from 'commander';
import type { Diff } from '../keep/compare/diff.ts';
import type { Look } from '../report/look.ts';
import { asFile, codeFor, emit, emitFindings } from './emit.ts';
import { exitCodesHelp } from './exit-codes.ts';
import { addCommonOptions, outOption, type CommonOptions } from './options.ts';
import type { Outcome } from './outcome.ts';
import { checkOutput, writeOutput } from './output-file.ts';
import { instrumentOption, middleCOption, templateOption } from './plan-options.ts';
import type { Host } from './streams.ts';

interface Options extends CommonOptions {
  readonly instrument?: string;
  readonly template?: string;
  readonly middleC?: number;
  readonly out?: string;
}

export const diffCommand = (host: Host, outcome: Outcome): Command =>
  addCommonOptions(
    new Command('diff')
      .description('Show what to load and unload to go from one keep file to another.')
      .argument('<from>', 'the keep file of what is loaded now')
      .argument('<to>', 'the keep file of what is to be loaded')
      .addOption(templateOption())
      .addOption(instrumentOption())
      .addOption(middleCOption())
      .addOption(outOption()),
    ['table', 'json', 'csv', 'markdown'],
  )
    .addHelpText(
      'after',
      `
Examples:
  keepset diff keep.json keep-2.json
  keepset diff keep.json keep-2.json --template ~/score/keepset.yaml
  keepset diff keep.json keep-2.json --format csv -o load.csv

Zones come from the two files; bytes and keys need the instruments at hand.
${exitCodesHelp}`,
    )
    .action(async (from: string, to: string, options: Options) => {
      const { instrument, template, middleC, out = '-' } = options;
      if (out !== '-') await checkOutput(out, [], { instrument, template }, 'diff');
      const { diff } = await import('../jobs/diff.ts');
      const { diffTable } = await import('../report/diff-table.ts');
      const { diffCsv } = await import('../report/diff-csv.ts');
      const result = await diff({ from, to, instrument, template, middleC });
      const shapes = {
        table: (shown: Diff, look: Look): string =>
          diffTable(shown, { ...look, details: options.verbose }),
        csv: diffCsv,
      };
      await emitFindings(result.findings, options, host);
      outcome.code = codeFor(result.findings, options.strict);
      if (out === '-') await emit(result, shapes, options, host);
      else await writeOutput(out, await asFile(result, shapes, options), options, host);
    });
