import type { Place } from '../../terms/finding.ts';
import type { Faults } from '../document/faults.ts';
import { shortened } from '../document/shortened.ts';
import { compose, type Composed } from './compose.ts';
import { deepest, type Scan } from './scan.ts';
import { syntaxFault } from './syntax-reason.ts';

/** What stands at a place, to the end of the line or of the value. */
const textAt = (text: string, offset: number): string =>
  shortened(
    /^[^\r\n]{0,200}/u
      .exec(text.slice(offset, offset + 200))![0]
      .split(' #')[0]!
      .trim(),
  );

/** A text that needs quotation marks as far as it was meant: up to a sign of YAML. */
const meantAt = (text: string, offset: number): string =>
  textAt(text, offset)
    .split(/[,}\]]/u)[0]!
    .trim();

const placeIn = ({ lines }: Scan, offset: number): Place => {
  const { line, col } = lines.linePos(offset);
  return { line, column: col };
};

/**
 * Adds what is not YAML, or is YAML that a template may not hold; each line once.
 *
 * @returns the document that could be made of it; of use only where nothing is wrong
 */
export const syntaxFaults = (text: string, scanned: Scan, faults: Faults): Composed['document'] => {
  const lines = new Set<number | undefined>();
  const isNew = ({ line }: Place): boolean => !lines.has(line) && lines.add(line).has(line);
  for (const { kind, offset, text: sign } of scanned.shorthands) {
    const at = placeIn(scanned, offset);
    const written = kind === 'alias' || kind === 'tag' ? meantAt(text, offset) : shortened(sign);
    if (isNew(at)) faults.add(at, 'yaml-shorthand', () => ({ kind, text: written }));
  }
  const { tooDeep, secondDocument } = scanned;
  if (tooDeep !== null) {
    faults.add(placeIn(scanned, tooDeep), 'yaml-too-deep', () => ({ levels: deepest }));
    return null;
  }
  if (secondDocument !== null) {
    const at = placeIn(scanned, secondDocument);
    faults.add(at, 'yaml-syntax', () => ({ reason: 'documents', text: '' }));
    return null;
  }
  const { document, errors } = compose(scanned);
  const runOn = new Set(
    errors.filter(({ code }) => code === 'MULTILINE_IMPLICIT_KEY').map(({ pos }) => pos[0]),
  );
  const seen = new Set<number>();
  for (const error of errors) {
    // A second error at one place says the same in other words.
    if (seen.has(error.pos[0])) continue;
    seen.add(error.pos[0]);
    const { reason, offset, isLost } = syntaxFault(error, text, scanned, runOn.has(error.pos[0]));
    const at = placeIn(scanned, offset);
    const written = (reason === 'colon-in-text' ? meantAt : textAt)(text, offset);
    if (isNew(at)) faults.add(at, 'yaml-syntax', () => ({ reason, text: written }));
    if (isLost) break;
  }
  return document;
};
