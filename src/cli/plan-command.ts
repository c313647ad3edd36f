import { Command, Option } from 'commander';
import type { Plan } from '../keep/plan.ts';
import type { Look } from '../report/look.ts';
import type { Headroom } from '../template/template.ts';
import type { Settlements } from '../terms/settlement.ts';
import type { Outcome } from './outcome.ts';
import { codeFor, emit, emitFindings } from './emit.ts';
import { exitCodes, exitCodesHelp } from './exit-codes.ts';
import { noKeepFile, writeKeepFile } from './keep-file.ts';
import {
  addCommonOptions,
  addReelOptions,
  reelChoices,
  type CommonOptions,
  type ReelFlags,
} from './options.ts';
import {
  allowUnmappedOption,
  headroomCurveOption,
  headroomOption,
  instrumentOption,
  middleCOption,
  pinOption,
  rareOption,
  settleOption,
  templateOption,
  usageFileOption,
} from './plan-options.ts';
import { checkOutput } from './output-file.ts';
import { watched } from './progress.ts';
import { colorsFor, type Host } from './streams.ts';

interface Options extends CommonOptions, ReelFlags {
  readonly instrument?: string;
  readonly template?: string;
  readonly middleC?: number;
  readonly headroom?: Partial<Headroom>;
  readonly pin?: readonly string[];
  readonly allowUnmapped?: boolean;
  readonly out?: string;
  readonly settle?: Settlements;
  readonly rare?: number;
  readonly headroomCurve?: boolean;
  readonly usage?: readonly string[];
}

export const planCommand = (host: Host, outcome: Outcome): Command =>
  addCommonOptions(
    addReelOptions(
      new Command('plan')
        .description(
          'Find what must stay loaded: the keep set, the memory it saves, doubts by price.',
        )
        .argument('[cues...]', "files, folders, patterns; else the template's")
        .addOption(usageFileOption())
        .addOption(templateOption())
        .addOption(instrumentOption())
        .addOption(middleCOption())
        .addOption(settleOption())
        .addOption(headroomOption())
        .addOption(pinOption())
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
      const { instrument, template, out, settle = {} } = options;
      const started = performance.now();
      const toFile = out !== undefined && out !== '-';
      if (toFile) await checkOutput(out, cues, { instrument, template }, 'plan');
      const { plan } = await import('../jobs/plan.ts');
      const { planTable } = await import('../report/plan-table.ts');
      const { planCsv } = await import('../report/plan-csv.ts');
      const result = await watched(options, host, (onStep) =>
        plan({
          cues,
          instrument,
          template,
          middleC: options.middleC,
          ...reelChoices(options),
          usage: options.usage ?? [],
          rare: options.rare ?? null,
          headroomCurve: options.headroomCurve === true,
          settle,
          headroom: options.headroom ?? {},
          pins: options.pin ?? [],
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
          const colors = colorsFor(options.color, host.stderr, host.env);
          host.stderr.write(`${formatError(refusal, { colors })}\n`);
          outcome.code = exitCodes.badInput;
        }
      }
      if (options.verbose) {
        const seconds = ((performance.now() - started) / 1000).toFixed(2);
        host.stderr.write(`planned in ${seconds} s\n`);
      }
    });
