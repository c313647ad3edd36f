import { Command, InvalidArgumentError, Option } from 'commander';
import type { ExcerptChoice } from '../primer/compose/input.ts';
import type { Primer } from '../primer/primer.ts';
import type { Look } from '../report/look.ts';
import { UsageError } from '../terms/errors.ts';
import { printable } from '../terms/printable.ts';
import { codeFor, emit, emitFindings } from './emit.ts';
import { exitCodes, exitCodesHelp } from './exit-codes.ts';
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
import { watched } from './progress.ts';
import type { Host } from './streams.ts';

interface Options extends CommonOptions {
  readonly keep: string;
  readonly out?: string;
  readonly verify?: string;
  readonly template?: string;
  readonly instrument?: string;
  readonly middleC?: number;
  readonly machine?: string;
  readonly excerpts: ExcerptChoice;
  readonly pace?: number;
  readonly base?: string;
  readonly acceptDamage?: readonly string[];
  readonly acceptPartial?: readonly string[];
  readonly allowUnmapped?: boolean;
}

const group = 'Primer:';

/** `--pace 32`: notes a second. */
const paceOption = (): Option =>
  new Option('--pace <notes>', 'notes a second per machine; else 8')
    .argParser((value: string): number => {
      if (!/^[1-9]\d?$/u.test(value)) throw new InvalidArgumentError('Write a number, 1 to 99.');
      return Number(value);
    })
    .helpGroup(group);

export const primerCommand = (host: Host, outcome: Outcome): Command =>
  addCommonOptions(
    new Command('primer')
      .description('Write a cue that makes players load what stays, and no more.')
      .addOption(keepOption())
      .addOption(templateOption())
      .addOption(instrumentOption())
      .addOption(middleCOption())
      .addOption(new Option('--machine <id>', 'for this machine only').helpGroup('Scope:'))
      .addOption(acceptDamageOption())
      .addOption(acceptPartialOption())
      .addOption(allowUnmappedOption())
      .addOption(
        new Option('--excerpts <when>', 'bars of the cues, where no notes can be made')
          .choices(['auto', 'never', 'only'])
          .default('auto')
          .helpGroup(group),
      )
      .addOption(paceOption())
      .addOption(new Option('--base <cue>', 'the cue whose tracks it has').helpGroup(group))
      .addOption(
        new Option('--verify <file>', 'does this export of it still load the same?').helpGroup(
          group,
        ),
      )
      .addOption(new Option('-o, --out <file>', 'write the cue there').helpGroup('Output:')),
    ['table', 'json', 'markdown'],
  )
    .addHelpText(
      'after',
      `
Examples:
  keepset primer --keep keep.json -o primer.mid
  keepset primer --keep keep.json -o primer-b.mid --machine b --pace 16
  keepset primer --keep keep.json --verify exported.mid

For players that load a sample when it is first played. With --verify nothing
is written; give the options that the primer was made with.
${exitCodesHelp}`,
    )
    .action(async (options: Options) => {
      const { keep, out, verify, template } = options;
      const choice = {
        keep,
        template,
        instrument: options.instrument,
        middleC: options.middleC,
        machine: options.machine,
        excerpts: options.excerpts,
        pace: options.pace,
        base: options.base,
        acceptDamage: options.acceptDamage ?? [],
        acceptPartial: options.acceptPartial ?? [],
        allowUnmapped: options.allowUnmapped === true,
      };
      if (verify !== undefined) {
        if (out !== undefined) {
          throw new UsageError('With --verify nothing is written.', 'Leave out -o, or --verify.');
        }
        const { verifyPrimer } = await import('../jobs/verify-primer.ts');
        const { primerVerificationTable } = await import('../report/primer-verification-table.ts');
        const result = await watched(options, host, (onStep) =>
          verifyPrimer({ onStep, ...choice, file: verify }),
        );
        await emitFindings(result.findings, options, host);
        const code = codeFor(result.findings, options.strict);
        const fails = result.verdict !== 'verified';
        outcome.code = code === exitCodes.done && fails ? exitCodes.failed : code;
        await emit(result, primerVerificationTable, options, host);
        return;
      }
      if (out === undefined || out === '' || out === '-') {
        throw new UsageError(
          'Where should the primer go?',
          'Name a new file: keepset primer --keep keep.json -o primer.mid',
        );
      }
      const { primer } = await import('../jobs/primer.ts');
      const { primerTable } = await import('../report/primer-table.ts');
      const { primer: result } = await watched(options, host, (onStep) =>
        primer({ onStep, ...choice, out }),
      );
      await emitFindings(result.findings, options, host);
      outcome.code = codeFor(result.findings, options.strict);
      if (!options.quiet && options.format !== 'json') {
        host.stderr.write(`wrote ${printable(out)}\n`);
      }
      const table = (shown: Primer, look: Look): string =>
        primerTable(shown, { keep, out, template }, { ...look, details: options.verbose });
      await emit(result, table, options, host);
    });
