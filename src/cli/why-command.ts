import { Command, InvalidArgumentError, Option } from 'commander';
import type { Why } from '../keep/why/why.ts';
import type { Look } from '../report/look.ts';
import { UsageError } from '../terms/errors.ts';
import { asFile, codeFor, emit, emitFindings } from './emit.ts';
import { exitCodesHelp } from './exit-codes.ts';
import { addCommonOptions, outOption, withoutOption, type CommonOptions } from './options.ts';
import type { Outcome } from './outcome.ts';
import { checkOutput, writeOutput } from './output-file.ts';
import { instrumentOption, middleCOption, templateOption } from './plan-options.ts';
import { watched } from './progress.ts';
import type { Host } from './streams.ts';

interface Options extends CommonOptions {
  readonly keep?: string;
  readonly zone?: number;
  readonly key?: string;
  readonly velocity?: number;
  readonly articulation?: string;
  readonly sample?: string;
  readonly template?: string;
  readonly instrument?: string;
  readonly middleC?: number;
  readonly without?: readonly string[];
  readonly out?: string;
}

const which = 'Which zones:';

const zoneOption = (): Option =>
  new Option('--zone <number>', 'the number by which the source knows it')
    .argParser((value: string): number => {
      if (!/^\d{1,9}$/.test(value)) throw new InvalidArgumentError('Write a number from 0 on.');
      return Number(value);
    })
    .helpGroup(which);

const velocityOption = (): Option =>
  new Option('--velocity <number>', 'those that may sound at this velocity')
    .argParser((value: string): number => {
      if (!/^\d{1,3}$/.test(value) || Number(value) < 1 || Number(value) > 127) {
        throw new InvalidArgumentError('Write a number from 1 to 127.');
      }
      return Number(value);
    })
    .helpGroup(which);

export const whyCommand = (host: Host, outcome: Outcome): Command =>
  addCommonOptions(
    new Command('why')
      .description('Tell why zones stay, or what came nearest to needing those that went.')
      .argument('<instrument>', 'by its id in the keep file')
      .argument('[cues...]', "MIDI files, folders, patterns; else the plan's")
      .addOption(new Option('--keep <file>', 'the keep file, from keepset plan -o'))
      .addOption(zoneOption())
      .addOption(new Option('--key <key>', 'those that it may start: C4, or 60').helpGroup(which))
      .addOption(velocityOption())
      .addOption(new Option('--articulation <name>', 'those of one').helpGroup(which))
      .addOption(new Option('--sample <name>', 'those that use it').helpGroup(which))
      .addOption(templateOption())
      .addOption(instrumentOption())
      .addOption(middleCOption())
      .addOption(withoutOption())
      .addOption(outOption()),
    ['table', 'json', 'markdown'],
  )
    .addHelpText(
      'after',
      `
Examples:
  keepset why horns --keep keep.json                why it takes what it takes
  keepset why horns --keep keep.json --key C2 --velocity 120
  keepset why harp cues/2m*.mid --keep keep.json --zone 17

For what went the plan's cues are played again, if they are there.
${exitCodesHelp}`,
    )
    .action(async (of: string, cues: readonly string[], options: Options) => {
      const { keep, out = '-', instrument, template } = options;
      if (keep === undefined) {
        throw new UsageError(
          'Which keep file?',
          'Name the one that the plan wrote: keepset why horns --keep keep.json',
        );
      }
      if (out !== '-') await checkOutput(out, cues, { instrument, template }, 'why');
      const { why } = await import('../jobs/why.ts');
      const { whyTable } = await import('../report/why-table.ts');
      const result = await watched(options, host, (onStep) =>
        why({
          keep,
          of,
          cues,
          instrument,
          template,
          middleC: options.middleC,
          zone: options.zone ?? null,
          key: options.key ?? null,
          velocity: options.velocity ?? null,
          articulation: options.articulation ?? null,
          sample: options.sample ?? null,
          without: options.without ?? [],
          onStep,
        }),
      );
      const table = (shown: Why, look: Look): string =>
        whyTable(shown, { ...look, details: options.verbose });
      await emitFindings(result.findings, options, host);
      outcome.code = codeFor(result.findings, options.strict);
      if (out === '-') await emit(result, table, options, host);
      else await writeOutput(out, await asFile(result, table, options), options, host);
    });
