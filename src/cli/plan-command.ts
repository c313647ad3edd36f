import { Command, Option } from 'commander';
import type { Settlement } from '../keep/plan.ts';
import { formatError } from '../report/error-text.ts';
import type { DoubtName } from '../terms/doubt.ts';
import { UsageError } from '../terms/errors.ts';
import type { Outcome } from './outcome.ts';
import { codeFor, emit, emitFindings } from './emit.ts';
import { exitCodes, exitCodesHelp } from './exit-codes.ts';
import { noKeepFile, writeKeepFile } from './keep-file.ts';
import { addCommonOptions, settleOption, withoutOption, type CommonOptions } from './options.ts';
import { checkOutput } from './output-file.ts';
import { colorsFor, type Host } from './streams.ts';

interface Options extends CommonOptions {
  readonly instrument?: string;
  readonly out?: string;
  readonly without?: readonly string[];
  readonly settle?: Readonly<Partial<Record<DoubtName, Settlement>>>;
}

export const planCommand = (host: Host, outcome: Outcome): Command =>
  addCommonOptions(
    new Command('plan')
      .description(
        'Find what must stay loaded: the keep set, the memory it saves, doubts by price.',
      )
      .argument('<cues...>', 'Standard MIDI Files, folders of them, or patterns')
      .addOption(
        new Option(
          '-i, --instrument <file>',
          'a SoundFont bank, or one preset of it: bank.sf2#0:48',
        ).helpGroup('Scope:'),
      )
      .addOption(withoutOption())
      .addOption(settleOption())
      .addOption(
        new Option('-o, --out <file>', 'write the keep file (JSON); - is stdout').helpGroup(
          'Output:',
        ),
      ),
  )
    .addHelpText(
      'after',
      `
Examples:
  keepset plan cues/ --instrument bank.sf2
  keepset plan cues/ --instrument bank.sf2#0:48 -o keep.json
  keepset plan cues/ --instrument bank.sf2 --settle order=plain --format json

Nothing is unloaded or deleted: a plan says what could be. Keep your full
template safe.
${exitCodesHelp}`,
    )
    .action(async (cues: readonly string[], options: Options) => {
      const { instrument, out, without = [], settle = {} } = options;
      if (instrument === undefined) {
        throw new UsageError(
          'Which instrument do the cues play?',
          'Name it: keepset plan cues/ --instrument bank.sf2',
        );
      }
      const started = performance.now();
      const toFile = out !== undefined && out !== '-';
      if (toFile) await checkOutput(out, cues, instrument, 'plan');
      const { plan } = await import('../jobs/plan.ts');
      const { planTable } = await import('../report/plan-table.ts');
      const result = await plan({ cues, instrument, without, settle });
      emitFindings(result.findings, options, host);
      outcome.code = codeFor(result.findings, options.strict);
      const refusal = out === undefined ? null : noKeepFile(result);
      if (out === '-') {
        if (refusal !== null) throw refusal;
        emit(result, planTable, { ...options, format: 'json' }, host);
      } else {
        // The file first: whoever reads stdout may go away in the middle.
        if (toFile && refusal === null) await writeKeepFile(out, result, options, host);
        emit(result, planTable, options, host);
        // The result is on stdout, perhaps as JSON: the refusal does not belong there.
        if (refusal !== null) {
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
