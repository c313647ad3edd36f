import { Command, Option } from 'commander';
import type { Outcome } from './outcome.ts';
import { asFile, codeFor, emit, emitFindings } from './emit.ts';
import { exitCodesHelp } from './exit-codes.ts';
import { addCommonOptions, withoutOption, type CommonOptions } from './options.ts';
import { checkOutput, writeOutput } from './output-file.ts';
import type { Host } from './streams.ts';

interface Options extends CommonOptions {
  readonly out?: string;
  readonly without?: readonly string[];
}

export const usageCommand = (host: Host, outcome: Outcome): Command =>
  addCommonOptions(
    new Command('usage')
      .description('Show what the score plays: parts, keys, velocities, controllers, programs.')
      .argument('<cues...>', 'Standard MIDI Files, folders of them, or patterns')
      .addOption(withoutOption())
      .addOption(
        new Option('-o, --out <file>', 'write the result there; - is stdout').helpGroup('Output:'),
      ),
  )
    .addHelpText(
      'after',
      `
Examples:
  keepset usage cues/
  keepset usage 'cues/1m*.mid' --without "1m2 v3"
  keepset usage cues/ --format json -o usage.json

${exitCodesHelp}`,
    )
    .action(async (cues: readonly string[], options: Options) => {
      const { usage } = await import('../jobs/usage.ts');
      const { usageTable } = await import('../report/usage-table.ts');
      const { out = '-', without = [] } = options;
      if (out !== '-') await checkOutput(out, cues, {}, 'usage');
      const result = await usage({ cues, without });
      emitFindings(result.findings, options, host);
      if (out === '-') emit(result, usageTable, options, host);
      else await writeOutput(out, asFile(result, usageTable, options), options, host);
      outcome.code = codeFor(result.findings, options.strict);
    });
