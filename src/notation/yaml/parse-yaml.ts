import type { Faults } from '../document/faults.ts';
import { decode } from './decode.ts';
import { scan } from './scan.ts';
import { syntaxFaults } from './syntax-faults.ts';
import { toTree } from './to-tree.ts';
import type { YamlNode } from './tree.ts';

/**
 * Reads YAML 1.2 (core schema) without aliases, anchors, tags and merge keys, of one document, with
 * no key twice in one place and at most 20 levels deep.
 *
 * @returns the tree, or null where there is none to go on with; `faults` then say why
 */
export const parseYaml = (bytes: Uint8Array, faults: Faults): YamlNode | null => {
  const decoded = decode(bytes);
  if (!('text' in decoded)) {
    const { problem, at } = decoded;
    if (problem === 'control') {
      faults.add(at, 'yaml-syntax', () => ({ reason: problem, text: '' }));
    } else faults.add(at, 'yaml-encoding', () => ({ encoding: problem }));
    return null;
  }
  const scanned = scan(decoded.text);
  const document = syntaxFaults(decoded.text, scanned, faults);
  if (faults.found) return null;
  const start = { line: 1, column: 1 };
  return toTree(document?.contents ?? null, { lines: scanned.lines, faults }, start);
};
