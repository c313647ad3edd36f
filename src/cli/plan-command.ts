import { Command, Option } from 'commander';
import type { Plan } from '../keep/plan.ts';
import type { Look } from '../report/look.ts';
import type { Outcome } from './outcome.ts';
import { codeFor, emit, emitFindings } from './emit.ts';
import { exitCodes, exitCodesHelp } from './exit-codes.ts';
import { noKeepFile, writeKeepFile } from './keep-file.ts';
import { addCommonOptions, addReelOptions, type CommonOptions } from './options.ts';
import {
  addPlanOptions,
  allowUnmappedOption,
  headroomCurveOption,
  planChoices,
  rareOption,
  type PlanFlags,
} from './plan-options.ts';
import { checkOutput } from './output-file.ts';
import { watched } from './progress.ts';
import { errorLookOf, type Host } from './streams.ts';

interface Options extends CommonOptions, PlanFlags {
  readonly allowUnmapped?: boolean;
  readonly out?: string;
  readonly rare?: number;
  readonly headroomCurve?: boolean;
}

export const planCommand = (host: Host, outcome: Outcome): Command =>
  addCommonOptions(
    addReelOptions(
      addPlanOptions(
        new Command('plan')
          .description(
            'Find what must stay loaded: the keep set, the memory it saves, doubts by price.',
          )
          .argument('[cues...]', "files, folders, patterns; else the template's"),
      )
        .addOption(rareOption())
        .addOption(headroomCurveOption())
        .addOption(allowUnmappedOption())
        .addOption(
          new Option('-o, --out <file>', 'write the keep file (JSON); - is stdout').helpGroup(
            'Output:',
          ),
        ),
    ),
    ['table', 'json', 'csv', 'markdown'],
  )
    .addHelpText(
      'after',
      `
Examples:
  keepset plan -o keep.json                  with keepset.yaml of this folder
  keepset plan cues/2m3*.mid --template ~/score/keepset.yaml
  keepset plan cues/ --instrument bank.sf2#0:48 -o keep.json

Nothing is unloaded or deleted: a plan says what could be. Keep your full
template safe.
${exitCodesHelp}`,
    )
    .action(async (cues: readonly string[], options: Options) => {
      const { instrument, template, out } = options;
      const started = performance.now();
      const toFile = out !== undefined && out !== '-';
      if (toFile) await checkOutput(out, cues, { instrument, template }, 'plan');
      const { plan } = await import('../jobs/plan.ts');
      const { planTable } = await import('../report/plan-table.ts');
      const { planCsv } = await import('../report/plan-csv.ts');
      const result = await watched(options, host, (onStep) =>
        plan({
          cues,
          ...planChoices(options),
          rare: options.rare ?? null,
          headroomCurve: options.headroomCurve === true,
          allowUnmapped: options.allowUnmapped === true,
          onStep,
        }),
      );
      await emitFindings(result.findings, options, host);
      outcome.code = codeFor(result.findings, options.strict);
      const refusal = out === undefined ? null : noKeepFile(result);
      if (out === '-') {
        if (refusal !== null) throw refusal;
        await emit(result, planTable, { ...options, format: 'json' }, host);
      } else {
        // The file first: whoever reads stdout may go away in the middle.
        if (toFile && refusal === null) await writeKeepFile(out, result, options, host);
        const table = (shown: Plan, look: Look): string =>
          planTable(shown, { ...look, details: options.verbose });
        await emit(result, { table, csv: planCsv }, options, host);
        // The result is on stdout, perhaps as JSON: the refusal does not belong there.
        if (refusal !== null) {
          const { formatError } = await import('../report/error-text.ts');
          host.stderr.write(`${formatError(refusal, errorLookOf(options.color, host))}\n`);
          outcome.code = exitCodes.badInput;
        }
      }
      if (options.verbose) {
        const seconds = ((performance.now() - started) / 1000).toFixed(2);
        host.stderr.write(`planned in ${seconds} s\n`);
      }
    });
