import { stat } from 'node:fs/promises';
import { inputError } from '../terms/errors.ts';

/**
 * Makes sure that what is about to be written is none of the inputs, by whatever name: through links,
 * in other letters on a disk that does not tell them apart.
 *
 * @throws {InputError} `output-unwritable`
 */
export const refuseInputs = async (out: string, inputs: readonly string[]): Promise<void> => {
  const target = await fileAt(out);
  if (target === null) return;
  for (const input of inputs) {
    const there = await fileAt(input);
    if (there?.dev === target.dev && there.ino === target.ino) {
      throw inputError('output-unwritable', out, { reason: 'it is one of the inputs' });
    }
  }
};

const fileAt = (path: string): Promise<{ readonly dev: bigint; readonly ino: bigint } | null> =>
  stat(path, { bigint: true }).catch(() => null);
