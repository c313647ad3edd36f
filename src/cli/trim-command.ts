import { Command, Option } from 'commander';
import type { Look } from '../report/look.ts';
import { UsageError } from '../terms/errors.ts';
import type { Trim } from '../trim/trim.ts';
import { codeFor, emit, emitFindings } from './emit.ts';
import { exitCodesHelp } from './exit-codes.ts';
import {
  acceptDamageOption,
  acceptPartialOption,
  addCommonOptions,
  type CommonOptions,
} from './options.ts';
import type { Outcome } from './outcome.ts';
import {
  allowUnmappedOption,
  instrumentOption,
  keepOption,
  middleCOption,
  templateOption,
} from './plan-options.ts';
import { showProgress } from './progress.ts';
import type { Host } from './streams.ts';

interface Options extends CommonOptions {
  readonly keep: string;
  readonly out?: string;
  readonly template?: string;
  readonly instrument?: string;
  readonly middleC?: number;
  readonly force: boolean;
  readonly dryRun: boolean;
  readonly acceptDamage?: readonly string[];
  readonly acceptPartial?: readonly string[];
  readonly allowUnmapped?: boolean;
}

const output = (flags: string, text: string): Option =>
  new Option(flags, text).helpGroup('Output:');

export const trimCommand = (host: Host, outcome: Outcome): Command =>
  addCommonOptions(
    new Command('trim')
      .description('Write smaller SoundFont and SFZ instruments, and play the score through them.')
      .addOption(keepOption())
      .addOption(templateOption())
      .addOption(instrumentOption())
      .addOption(middleCOption())
      .addOption(acceptDamageOption())
      .addOption(acceptPartialOption())
      .addOption(allowUnmappedOption())
      .addOption(output('--out <folder>', 'where to: a new folder'))
      .addOption(output('--force', 'write again what trim wrote there before').default(false, ''))
      .addOption(output('--dry-run', 'write nothing, only tell').default(false, '')),
    ['table', 'json', 'markdown'],
  )
    .addHelpText(
      'after',
      `
Examples:
  keepset trim --keep keep.json --out small --dry-run     what it would write
  keepset trim --keep keep.json --out small
  keepset trim --keep keep.json --out small --force --accept-damage 2m3

The full instruments stay as they are: keep them somewhere safe, for nothing
else has what was left out.
${exitCodesHelp}`,
    )
    .action(async (options: Options) => {
      const { keep, out } = options;
      if (out === undefined || out === '') {
        throw new UsageError(
          'Where should the smaller instruments go?',
          'Name a new folder: keepset trim --keep keep.json --out small',
        );
      }
      const { trim } = await import('../jobs/trim.ts');
      const { trimTable } = await import('../report/trim-table.ts');
      const progress = showProgress(options, host);
      let result: Trim;
      try {
        result = await trim({
          keep,
          out,
          template: options.template,
          instrument: options.instrument,
          middleC: options.middleC,
          force: options.force,
          dryRun: options.dryRun,
          acceptDamage: options.acceptDamage ?? [],
          acceptPartial: options.acceptPartial ?? [],
          allowUnmapped: options.allowUnmapped === true,
          onProgress: progress.onProgress,
        });
      } finally {
        progress.stop();
      }
      await emitFindings(result.findings, options, host);
      outcome.code = codeFor(result.findings, options.strict);
      const table = (shown: Trim, look: Look): string =>
        trimTable(
          shown,
          { keep, out, template: options.template },
          { ...look, details: options.verbose },
        );
      await emit(result, table, options, host);
    });
