#!/usr/bin/env node
import { isPlaceTaken } from '../files/places-taken.ts';
import { exitCodes } from './exit-codes.ts';
import { version } from './version.ts';

const args = process.argv.slice(2);

process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  // A reader that goes away (`keepset … | head`) is no failure, and nothing more can be said to it.
  if (error.code === 'EPIPE') process.exit(process.exitCode ?? exitCodes.done);
  void import('./lost-output.ts').then(({ lostOutput }) => lostOutput(error));
});
// Nobody listens to the warnings: the result still counts.
process.stderr.on('error', () => undefined);

if (args.length === 1 && (args[0] === '--version' || args[0] === '-V')) {
  process.stdout.write(`${version()}\n`);
} else {
  process.on('SIGINT', () => {
    // After the others who tidy up when the process ends.
    process.once('exit', () => {
      const what = isPlaceTaken() ? 'nothing is left half-written' : 'nothing was written';
      process.stderr.write(`interrupted: ${what}\n`);
    });
    process.exit(exitCodes.interrupted);
  });
  const { run } = await import('./run.ts');
  process.exitCode = await run(args, process);
}
