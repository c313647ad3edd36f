import { Command } from 'commander';
import type { Outcome } from './outcome.ts';
import { codeFor, emit, emitFindings } from './emit.ts';
import { exitCodesHelp } from './exit-codes.ts';
import { addCommonOptions, withoutOption, type CommonOptions } from './options.ts';
import type { Host } from './streams.ts';

interface Options extends CommonOptions {
  readonly without?: readonly string[];
}

export const usageCommand = (host: Host, outcome: Outcome): Command =>
  addCommonOptions(
    new Command('usage')
      .description('Show what the score plays: parts, keys, velocities, controllers, programs.')
      .argument('<cues...>', 'Standard MIDI Files, folders of them, or patterns')
      .addOption(withoutOption()),
  )
    .addHelpText(
      'after',
      `
Examples:
  keepset usage cues/
  keepset usage 'cues/1m*.mid' --without "1m2 v3"
  keepset usage cues/ --format json > usage.json

${exitCodesHelp}`,
    )
    .action(async (cues: readonly string[], options: Options) => {
      const { usage } = await import('../jobs/usage.ts');
      const { usageTable } = await import('../report/usage-table.ts');
      const result = await usage({ cues, without: options.without ?? [] });
      emitFindings(result.findings, options, host);
      emit(result, usageTable, options, host);
      outcome.code = codeFor(result.findings, options.strict);
    });
