import { Command, Option } from 'commander';
import { UsageError } from '../terms/errors.ts';
import type { Headroom } from '../template/template.ts';
import type { Outcome } from './outcome.ts';
import { asFile, codeFor, emit, emitFindings } from './emit.ts';
import { exitCodesHelp } from './exit-codes.ts';
import {
  addCommonOptions,
  addReelOptions,
  outOption,
  reelChoices,
  type CommonOptions,
  type ReelFlags,
} from './options.ts';
import { checkOutput, writeOutput } from './output-file.ts';
import {
  headroomCurveOption,
  headroomOption,
  instrumentOption,
  middleCOption,
  templateOption,
} from './plan-options.ts';
import { watched } from './progress.ts';
import type { Host } from './streams.ts';

interface Options extends CommonOptions, ReelFlags {
  readonly out?: string;
  readonly template?: string;
  readonly instrument?: string;
  readonly middleC?: number;
  readonly headroom?: Partial<Headroom>;
  readonly headroomCurve?: boolean;
  readonly rare?: boolean;
}

export const usageCommand = (host: Host, outcome: Outcome): Command =>
  addCommonOptions(
    addReelOptions(
      new Command('usage')
        .description(
          'Show what the score plays; with a template, write what it asks of instruments.',
        )
        .argument('[cues...]', "files, folders, patterns; else the template's")
        .addOption(templateOption())
        .addOption(instrumentOption())
        .addOption(middleCOption())
        .addOption(headroomOption().helpGroup('Scope:'))
        .addOption(headroomCurveOption().helpGroup('Scope:'))
        .addOption(new Option('--rare', 'for plans with --rare').helpGroup('Scope:'))
        .addOption(outOption()),
    ),
    ['table', 'json', 'markdown'],
  )
    .addHelpText(
      'after',
      `
Examples:
  keepset usage cues/
  keepset usage 'cues/1m*.mid' --without "1m2 v3"
  keepset usage cues/ --template keepset.yaml --format json -o usage.json
  keepset plan --usage usage.json               a plan from it

${exitCodesHelp}`,
    )
    .action(async (cues: readonly string[], options: Options) => {
      if (options.template === undefined && options.instrument === undefined) {
        await showNotes(cues, options, host, outcome);
      } else {
        await writeUsage(cues, options, host, outcome);
      }
    });

/** Options that mean something only where instruments are played. */
const forInstruments = {
  middleC: '--middle-c',
  headroom: '--headroom',
  headroomCurve: '--headroom-curve',
  rare: '--rare',
  split: '--split',
  acceptPartial: '--accept-partial',
} as const;

/** What the score plays, whatever the instruments. */
const showNotes = async (
  cues: readonly string[],
  options: Options,
  host: Host,
  outcome: Outcome,
): Promise<void> => {
  if (cues.length === 0) {
    throw new UsageError(
      'Which cues?',
      'Name files or folders: keepset usage cues/ (or a template that names them)',
    );
  }
  const idle = (Object.keys(forInstruments) as (keyof typeof forInstruments)[]).find(
    (one) => options[one] !== undefined,
  );
  if (idle !== undefined) {
    throw new UsageError(
      `${forInstruments[idle]} means something only where instruments are played.`,
      'Name the template: --template keepset.yaml, or one instrument: --instrument bank.sf2',
    );
  }
  const { usage } = await import('../jobs/usage.ts');
  const { usageTable } = await import('../report/usage-table.ts');
  const { out = '-' } = options;
  if (out !== '-') await checkOutput(out, cues, {}, 'usage');
  const { without, newest } = reelChoices(options);
  const result = await watched(options, host, (onStep) => usage({ onStep, cues, without, newest }));
  await emitFindings(result.findings, options, host);
  if (out === '-') await emit(result, usageTable, options, host);
  else await writeOutput(out, await asFile(result, usageTable, options), options, host);
  outcome.code = codeFor(result.findings, options.strict);
};

/** What the cues ask of instruments, for plans to be made from. */
const writeUsage = async (
  cues: readonly string[],
  options: Options,
  host: Host,
  outcome: Outcome,
): Promise<void> => {
  const { format, template, instrument, middleC, headroom, out = '-' } = options;
  if (format !== 'json') {
    throw new UsageError(
      'What cues ask of instruments is written as JSON, for keepset plan to read.',
      'Add --format json -o usage.json, or leave out the template to see what the score plays.',
    );
  }
  if (out !== '-') await checkOutput(out, cues, { template, instrument }, 'usage');
  const { zoneUsage } = await import('../jobs/zone-usage.ts');
  const { usageText } = await import('../report/usage-text.ts');
  const result = await watched(options, host, (onStep) =>
    zoneUsage({
      ...{ cues, template, instrument, middleC },
      ...reelChoices(options),
      controllerRoom: headroom?.controller ?? null,
      headroomCurve: options.headroomCurve === true,
      everyPlace: options.rare === true,
      onStep,
    }),
  );
  const text = usageText(result);
  if (out === '-') host.stdout.write(text);
  else await writeOutput(out, text, options, host);
  outcome.code = codeFor(result.findings, options.strict);
};
