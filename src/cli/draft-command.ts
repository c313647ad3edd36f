import { Command, Option } from 'commander';
import type { Draft } from '../draft/draft.ts';
import { UsageError } from '../terms/errors.ts';
import { printable } from '../terms/printable.ts';
import type { Outcome } from './outcome.ts';
import { codeFor, emit, emitFindings } from './emit.ts';
import { exitCodesHelp } from './exit-codes.ts';
import { checkOutlinesFolder, writeOutlines } from './outline-files.ts';
import { addCommonOptions, withoutOption, type CommonOptions } from './options.ts';
import { writeOutput } from './output-file.ts';
import { middleCOption } from './plan-options.ts';
import type { Host } from './streams.ts';

interface Options extends CommonOptions {
  readonly out?: string;
  readonly update?: boolean;
  readonly outlines?: string;
  readonly middleC?: number;
  readonly without?: readonly string[];
}

export const draftCommand = (host: Host, outcome: Outcome): Command =>
  addCommonOptions(
    new Command('draft')
      .description('Make a first template from the tracks found, or add new tracks to one.')
      .argument('<cues...>', 'Standard MIDI Files, folders of them, or patterns')
      .addOption(withoutOption())
      .addOption(
        new Option('-o, --out <file>', 'where to: keepset.yaml; - is stdout').helpGroup('Output:'),
      )
      .addOption(
        new Option(
          '--update',
          'add the tracks that no rule takes to the template that is there',
        ).helpGroup('Output:'),
      )
      .addOption(
        new Option(
          '--outlines <folder>',
          "for libraries whose files can't be read: an outline for each new instrument, to fill in",
        ).helpGroup('Output:'),
      )
      .addOption(middleCOption('those outlines').helpGroup('Output:')),
  )
    .addHelpText(
      'after',
      `
Examples:
  keepset draft cues/ -o keepset.yaml
  keepset draft cues/ -o -
  keepset draft 'cues/3m*.mid' -o keepset.yaml --update
  keepset draft cues/ -o keepset.yaml --outlines outlines
  keepset draft cues/ -o keepset.yaml --outlines outlines --middle-c C3

Tracks of similar names are put on one instrument, for you to fill in. An
update adds at the end of instruments and routes, and changes nothing else.
Outlines hold the keys played and what looks like a switch; an outline that is
there already stays as it is. --middle-c is what the manuals of the libraries
call key 60; without it C4. With -o - nothing is written.
${exitCodesHelp}`,
    )
    .action(async (cues: readonly string[], options: Options) => {
      const { out, update = false, outlines, middleC, without = [] } = options;
      if (out === undefined) {
        throw new UsageError(
          'Where should the template go?',
          'Name a file: keepset draft cues/ -o keepset.yaml (or -o - to look at it first)',
        );
      }
      if (middleC !== undefined && outlines === undefined) {
        throw new UsageError(
          'The name of key 60 (--middle-c) is for outlines, and none are asked for.',
          'Add --outlines and a folder, or leave --middle-c out; a template has middle-c inside.',
        );
      }
      await checkTarget(out, update);
      await checkOutlinesFolder(outlines);
      const { draft } = await import('../jobs/draft.ts');
      const to = out === '-' ? {} : update ? { update: { path: out } } : { path: out };
      const wanted =
        outlines === undefined ? {} : { outlines, ...(middleC === undefined ? {} : { middleC }) };
      const result = await draft({ cues, without, ...to, ...wanted });
      await emitFindings(result.findings, options, host);
      const isWritten = out !== '-' && !(update && result.added === 0);
      // What the template names before it.
      if (isWritten && outlines !== undefined && result.outlines.length > 0) {
        await writeOutlines(outlines, result.outlines, options, host);
      }
      // The file first: whoever reads stdout may go away in the middle.
      if (isWritten) await writeOutput(out, result.text, options, host);
      if (options.format === 'json' || out === '-')
        await emit(result, ({ text }) => text, options, host);
      if (options.format !== 'json' && out !== '-' && !options.quiet) {
        host.stderr.write(`${whatNext(result, out, update)}\n`);
      }
      outcome.code = codeFor(result.findings, options.strict);
    });

/**
 * Finds out before the work whether the template can go there: a draft takes nothing's place.
 *
 * @throws {UsageError} when something is there, or for an update nothing is
 * @throws {InputError} `output-unwritable`
 */
const checkTarget = async (out: string, update: boolean): Promise<void> => {
  if (out === '-') {
    if (!update) return;
    throw new UsageError('Which template should be updated?', 'Name it: -o keepset.yaml --update');
  }
  const { DiskFiles } = await import('../files/disk-files.ts');
  const there = await new DiskFiles().info(out);
  if (there === null && update) {
    throw new UsageError(
      `There is no template to update at ${out}.`,
      'Leave out --update to make a first one.',
    );
  }
  if (there?.kind === 'file' && !update) {
    throw new UsageError(
      `There is already a file at ${out}, and it was left as it is.`,
      'Add --update to add the new tracks to it, or choose another name.',
    );
  }
  const { checkWritable } = await import('../files/write-whole.ts');
  await checkWritable(out);
};

const tracks = (count: number): string => `${String(count)} ${count === 1 ? 'track' : 'tracks'}`;

/** What a person does now. */
const whatNext = ({ added, groups, outlines }: Draft, out: string, update: boolean): string => {
  if (added === 0) {
    return update
      ? `nothing to add: every track with notes has a rule in ${printable(out)}`
      : 'no track plays a note: there is nothing to fill in yet';
  }
  const files = groups.filter(({ isNew }) => isNew).length;
  const some = outlines.length === 0 ? 'files marked "fill in"' : 'outlines';
  const one = outlines.length === 0 ? 'file marked "fill in"' : 'outline';
  const plan =
    out === 'keepset.yaml' ? 'keepset plan' : `keepset plan --template ${printable(out)}`;
  return [
    update ? `${tracks(added)} added, each with a comment "added"` : `${tracks(added)} found`,
    ...(files === 0 ? [] : [`fill in ${files === 1 ? `the ${one}` : `${String(files)} ${some}`}`]),
    `look through the routes, then run: ${plan}`,
  ].join('; ');
};
