import { Command, Option } from 'commander';
import { UsageError } from '../terms/errors.ts';
import { addCommonOptions, type CommonOptions } from './options.ts';
import { exitCodesHelp } from './exit-codes.ts';
import type { Host } from './streams.ts';

interface Options extends CommonOptions {
  readonly out?: string;
}

export const demoCommand = (host: Host): Command =>
  addCommonOptions(
    new Command('demo')
      .description('Write an invented score with its instruments, to try every command on.')
      .addOption(new Option('--out <folder>', 'where to; other files there are left alone')),
  )
    .addHelpText(
      'after',
      `
Examples:
  keepset demo --out harbour
  keepset usage harbour/cues
  keepset plan --template harbour/keepset.yaml
  keepset plan harbour/cues --instrument harbour/instruments/harbour.sf2

${exitCodesHelp}`,
    )
    .action(async ({ out, quiet, format }: Options) => {
      if (out === undefined) {
        throw new UsageError(
          'Where should the demo go?',
          'Name a folder: keepset demo --out harbour',
        );
      }
      const { demo } = await import('../jobs/demo.ts');
      const files = await demo(out);
      const { toJson } = await import('../report/json.ts');
      const { demoList } = await import('../report/demo-list.ts');
      if (format === 'json') host.stdout.write(toJson({ folder: out, files }));
      else if (!quiet) host.stdout.write(demoList(out, files));
    });
