import type { Check } from '../keep/check/check.ts';
import { checkMachines } from './check-machines.ts';
import { checkNext } from './check-next.ts';
import { againstProof, checkProof } from './check-proof.ts';
import { checkVerdict } from './check-verdict.ts';
import type { Look } from './look.ts';
import { missSections } from './miss-sections.ts';

/** A check as a person acts on it: the answer, what it covers, what is missing with its ways out. */
export const checkTable = (check: Check, look: Look): string => {
  const sections: readonly (readonly string[])[] = [
    checkVerdict(check, look),
    againstProof(check, look),
    checkProof(check, look),
    ...missSections(check, look),
    checkMachines(check, look),
    checkNext(check, look),
  ];
  const filled = sections.filter(({ length }) => length > 0);
  return `${filled.map((lines) => lines.join('\n')).join('\n\n')}\n`;
};
