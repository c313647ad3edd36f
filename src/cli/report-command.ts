import { Command, Option } from 'commander';
import { UsageError } from '../terms/errors.ts';
import { asFile, codeFor, emit, emitFindings } from './emit.ts';
import { exitCodes, exitCodesHelp } from './exit-codes.ts';
import { addCommonOptions, addReelOptions, type CommonOptions } from './options.ts';
import type { Outcome } from './outcome.ts';
import { checkOutput, writeOutput } from './output-file.ts';
import {
  addPlanOptions,
  allowUnmappedOption,
  planChoices,
  type PlanFlags,
} from './plan-options.ts';
import { watched } from './progress.ts';
import type { Host } from './streams.ts';

interface Options extends CommonOptions, PlanFlags {
  readonly keep?: string;
  readonly title?: string;
  readonly allowUnmapped?: boolean;
  readonly out?: string;
}

export const reportCommand = (host: Host, outcome: Outcome): Command =>
  addCommonOptions(
    addReelOptions(
      addPlanOptions(
        new Command('report')
          .description('Make a report of it for people: a page (one HTML file), or a short text.')
          .argument('[cues...]', "cues to plan for, or to check with --keep; else the template's")
          .addOption(
            new Option('--keep <file>', 'tell of this keep file; else plan now').helpGroup(
              'Scope:',
            ),
          ),
      )
        .addOption(allowUnmappedOption())
        .addOption(new Option('--title <text>', 'what stands above it').helpGroup('Output:'))
        .addOption(
          new Option('-o, --out <file>', 'write it there; - is stdout').helpGroup('Output:'),
        ),
    ),
    ['html', 'text', 'table', 'markdown', 'json'],
  )
    .addHelpText(
      'after',
      `
Examples:
  keepset report -o report.html               with keepset.yaml of this folder
  keepset report --keep keep.json --title "Reel 2" -o reel2.html
  keepset report "cues/2m3 v2.mid" --keep keep.json --format text

0: proved. 1: something is missing, or stands against a proof (before 2, with
--strict too). It is written all the same, also after an error on stderr.
${exitCodesHelp}`,
    )
    .action(async (cues: readonly string[], options: Options) => {
      const { keep, instrument, template, out } = options;
      refuseTerminal(options, host);
      const toFile = out !== undefined && out !== '-';
      if (toFile) {
        const inputs = keep === undefined ? cues : [...cues, keep];
        await checkOutput(out, inputs, { instrument, template }, 'report');
      }
      const { report } = await import('../jobs/report.ts');
      const result = await watched(options, host, (onStep) =>
        report({
          cues,
          keep,
          // An empty one would be a page without a title.
          title: options.title?.trim() ? options.title : null,
          ...planChoices(options),
          allowUnmapped: options.allowUnmapped === true,
          onStep,
        }),
      );
      await emitFindings(result.findings, options, host);
      outcome.code =
        result.proof.verdict === 'proved'
          ? codeFor(result.findings, options.strict)
          : exitCodes.failed;
      if (options.format === 'html') {
        const { page } = await import('../jobs/report-page.ts');
        const html = await page(result);
        if (toFile) await writeOutput(out, html, options, host);
        else host.stdout.write(html);
        return;
      }
      const { reportText } = await import('../report/report-text.ts');
      if (toFile) await writeOutput(out, await asFile(result, reportText, options), options, host);
      else await emit(result, reportText, options, host);
    });

/** A page is no text for a terminal. */
const refuseTerminal = ({ out, format }: Options, { stdout }: Host): void => {
  if (out !== undefined || format !== 'html' || !stdout.isTTY) return;
  throw new UsageError(
    'A page is not for the terminal.',
    'Say where it goes: keepset report -o FILE.html, or read it in short: --format text',
  );
};
