import type { Trim } from '../trim/trim.ts';
import type { Look } from './look.ts';
import { trimNext, type TrimNames } from './trim-next.ts';
import { trimFigures, trimNotes, trimProof } from './trim-notes.ts';
import { isCounted, trimRows } from './trim-rows.ts';
import { trimVerdict } from './trim-verdict.ts';

export type { TrimNames } from './trim-next.ts';

/**
 * Smaller instruments as a person goes on with them: what was written and proved, each instrument
 * before and after, what to do next.
 */
export const trimTable = (trim: Trim, names: TrimNames, look: Look): string => {
  const sections: readonly (readonly string[])[] = [
    trimVerdict(trim, look),
    trimRows(trim, look),
    trimNotes(trim, look),
    trimProof(trim, look),
    trimNext(trim, names, look),
    trim.instruments.some(isCounted) ? trimFigures(trim, look) : [],
  ];
  const filled = sections.filter(({ length }) => length > 0);
  return `${filled.map((lines) => lines.join('\n')).join('\n\n')}\n`;
};
