import { writeFile } from 'node:fs/promises';
import path from 'node:path';

const numbers = Array.from({ length: 128 }, (_, number) => number);

/**
 * Makes TiMidity++ play the bank that it is given, and no other.
 *
 * It reads the machine's own list of instruments first, whatever `-c` says. Where that list names
 * single instruments of a bank, as the one of Debian 12 does (`%font`), they go before any whole bank
 * that is named later (TiMidity++ 2.14.0, measured). So a list in the home folder, which is read too,
 * takes them all back. The rest of this process has that folder for its home.
 */
export const onlyTheGivenBank = async (home: string): Promise<void> => {
  const lines = numbers.flatMap((bank) =>
    ['bank', 'drumset'].flatMap((kind) => [
      `${kind} ${String(bank)}`,
      ...numbers.map((number) => `undef ${String(number)}`),
    ]),
  );
  await writeFile(path.join(home, '.timidity.cfg'), `${lines.join('\n')}\n`);
  process.env['HOME'] = home;
};
