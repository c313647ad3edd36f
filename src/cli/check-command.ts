import { Command } from 'commander';
import type { Check } from '../keep/check/check.ts';
import type { Look } from '../report/look.ts';
import { emit, asFile, emitFindings, codeFor } from './emit.ts';
import { exitCodes, exitCodesHelp } from './exit-codes.ts';
import {
  addCommonOptions,
  addReelOptions,
  outOption,
  reelChoices,
  type CommonOptions,
  type ReelFlags,
} from './options.ts';
import type { Outcome } from './outcome.ts';
import { checkOutput, writeOutput } from './output-file.ts';
import {
  instrumentOption,
  keepOption,
  loadedOption,
  middleCOption,
  templateOption,
} from './plan-options.ts';
import { watched } from './progress.ts';
import { lookOf, type Host } from './streams.ts';

interface Options extends CommonOptions, ReelFlags {
  readonly keep: string;
  readonly loaded?: string;
  readonly instrument?: string;
  readonly template?: string;
  readonly middleC?: number;
  readonly out?: string;
}

export const checkCommand = (host: Host, outcome: Outcome): Command =>
  addCommonOptions(
    addReelOptions(
      new Command('check')
        .description('Find out whether any cue needs what a plan has dropped, and the ways out.')
        .argument('[cues...]', 'cues to check; else all that the template names')
        .addOption(keepOption())
        .addOption(loadedOption('against what is loaded now: loaded.csv (worklist)'))
        .addOption(templateOption())
        .addOption(instrumentOption())
        .addOption(middleCOption())
        .addOption(outOption()),
    ),
    ['table', 'json', 'csv', 'markdown'],
  )
    .addHelpText(
      'after',
      `
Examples:
  keepset check "cues/2m3 The Ferry v2.mid" --keep keep.json    a revision
  keepset check --keep keep.json                the whole reel
  keepset check cues/ --keep keep.json --format csv -o misses.csv
  keepset check --keep keep.json --loaded loaded.csv    half way down a worklist

0: proved. 1: something is missing, or something stands against a proof.
${exitCodesHelp}`,
    )
    .action(async (cues: readonly string[], options: Options) => {
      const { keep, loaded, instrument, template, middleC, out = '-' } = options;
      if (out !== '-') {
        const choice = { instrument, template, record: loaded };
        await checkOutput(out, [...cues, keep], choice, 'check');
      }
      const { check } = await import('../jobs/check.ts');
      const { checkTable } = await import('../report/check-table.ts');
      const { checkCsv } = await import('../report/check-csv.ts');
      const result = await watched(options, host, (onStep) =>
        check({
          keep,
          loaded,
          cues,
          instrument,
          template,
          middleC,
          ...reelChoices(options),
          onStep,
        }),
      );
      await emitFindings(result.findings, options, host);
      outcome.code = checkCode(result, options.strict);
      const table = (shown: Check, look: Look): string =>
        checkTable(shown, { ...look, details: options.verbose });
      const shape = { table, csv: checkCsv };
      if (out === '-') await emit(result, shape, options, host);
      else await writeOutput(out, await asFile(result, shape, options), options, host);
      // Where the answer itself is not on the terminal, its first line is.
      const isElsewhere = out !== '-' || options.format === 'csv';
      if (isElsewhere && options.format !== 'json' && !options.quiet) {
        const look = { ...lookOf(options, host), width: null };
        host.stderr.write(`${checkTable(result, look).split('\n')[0] ?? ''}\n`);
      }
    });

/** A cue that can't be read is no wrong usage here: it is not proved. */
const checkCode = ({ verdict, findings }: Check, strict: boolean): number => {
  if (verdict !== 'proved') return exitCodes.failed;
  return codeFor(findings, strict);
};
