import { finding, type Finding } from '../../../terms/finding.ts';
import { shown } from '../../zone-table/cell-text.ts';
import { isKnownOpcode } from '../text/known-opcodes.ts';
import type { SfzDocument } from '../text/document.ts';
import type { SfzStructure } from './regions.ts';

/** How many names a message lists. */
const most = 6;

/** What is odd about an instrument as a whole: nothing to play, opcodes that mean nothing here. */
export const structureRemarks = (
  path: string,
  { headers }: SfzDocument,
  { regions }: SfzStructure,
): readonly Finding[] => {
  const findings: Finding[] = [];
  if (regions.length === 0) findings.push(finding('warning', 'sfz-no-regions', path, {}));
  const unknown = new Set<string>();
  for (const { opcodes } of headers) {
    for (const { name } of opcodes) if (!isKnownOpcode(name)) unknown.add(name);
  }
  if (unknown.size > 0) {
    const names = [...unknown].slice(0, most).map(shown);
    findings.push(
      finding('note', 'sfz-opcodes-unknown', path, { names, more: unknown.size - names.length }),
    );
  }
  return findings;
};
