import { formatError } from '../report/error-text.ts';
import { inputError } from '../terms/errors.ts';
import { exitCodes } from './exit-codes.ts';
import { errorLookOf } from './streams.ts';

/** Says that stdout did not take the result, and ends: a full disk behind `> usage.json`, for one. */
export const lostOutput = (error: NodeJS.ErrnoException): never => {
  const stop = inputError('output-unwritable', null, { reason: error.code ?? error.message });
  process.stderr.write(`${formatError(stop, errorLookOf('auto', process))}\n`);
  process.exit(exitCodes.badInput);
};
