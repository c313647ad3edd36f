import { parseBytes } from './bytes.ts';
import { tidy } from './tidy.ts';

const second = / ?\/ ?s$/iu;

/**
 * An amount of memory a second, as {@link parseBytes} reads it, with `/s` behind it, in any case, with or
 * without spaces.
 *
 * @returns whole bytes a second, at least 1; null when it cannot be read
 * @example parseByteRate('300 MB/s') // 300000000
 */
export const parseByteRate = (text: string, decimalComma = false): number | null => {
  const tidied = tidy(text);
  if (!second.test(tidied)) return null;
  const bytes = parseBytes(tidied.replace(second, ''), decimalComma);
  return bytes === 0 ? null : bytes;
};
