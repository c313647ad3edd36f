import { Faults } from '../../../notation/document/faults.ts';
import { Reader } from '../../../notation/document/reader.ts';
import { missingKey } from '../../../notation/document/shape-faults.ts';
import { unknownKeys } from '../../../notation/document/unknown-keys.ts';
import { parseYaml } from '../../../notation/yaml/parse-yaml.ts';
import { entryOf, type YamlMap } from '../../../notation/yaml/tree.ts';
import { InputError } from '../../../terms/errors.ts';
import { finding, type Finding } from '../../../terms/finding.ts';
import type { Measured, Outline } from '../outline.ts';
import { readChoices } from './choices.ts';
import { outlineVocabulary } from './keys.ts';
import { fillLike } from './like.ts';
import { countAsked, isOpen } from './open.ts';
import { checkMicrophones, readOwnFields } from './own-fields.ts';
import { shapesOf, topShapes } from './shapes.ts';
import { toArticulation, type Defaults } from './to-articulation.ts';

/** Bytes of the longest outline: twenty times what a large manual gives. */
export const largestOutline = 2 ** 20;

/** An outline, and what is to be said of it. */
export interface ParsedOutline {
  readonly outline: Outline;
  readonly findings: readonly Finding[];
}

/** Stops with what was found, if there is any. */
const check = (faults: Faults): void => {
  const [first, ...others] = faults.list();
  if (first !== undefined) throw new InputError(first, others);
};

/** The groups of the file, or null where there are none to go on with. */
const rootOf = (bytes: Uint8Array, faults: Faults): YamlMap | null => {
  const root = parseYaml(bytes, faults);
  if (root === null || root.kind === 'map') return root;
  if (root.kind === 'scalar' && root.value === null) {
    faults.add(null, 'yaml-empty', () => ({ document: 'outline' }));
  } else {
    const shape = root.kind === 'list' ? 'list' : 'text';
    faults.add(root.at, 'yaml-not-keys', () => ({ document: 'outline', shape }));
  }
  return null;
};

/** The octave of key 60. Where it is not well said, a fault, and C4 to go on with. */
const readMiddleC = (reader: Reader): number => {
  const entry = reader.top('middle-c');
  const isSaid = entry !== undefined && !isOpen(entry.value);
  if (isSaid) return reader.readTop(topShapes.middleC, 'middle-c') ?? 4;
  missingKey(reader, reader.root, entry?.value.at ?? reader.root.at, [], 'middle-c');
  return 4;
};

const readMeasured = (reader: Reader): Outline['measured'] => {
  const read = reader.readTop(topShapes.measured, 'measured');
  const node = reader.top('measured')?.value;
  const of = (key: 'empty' | 'full'): Measured | null => {
    const bytes = read?.[key] ?? null;
    const at = entryOf(node, key)?.value.at;
    return bytes === null || at === undefined ? null : { bytes, at };
  };
  return { empty: of('empty'), full: of('full') };
};

/** A key at the top that may be left open. */
const readDefaults = (reader: Reader): Defaults => {
  const isSaid = (key: string): boolean => {
    const node = reader.top(key)?.value;
    return node !== undefined && !isOpen(node);
  };
  return {
    sound: {
      rate: isSaid('rate') ? reader.readTop(topShapes.rate, 'rate') : null,
      bits: isSaid('bits') ? reader.readTop(topShapes.bits, 'bits') : null,
      channels: isSaid('channels') ? reader.readTop(topShapes.channels, 'channels') : null,
    },
    seconds: isSaid('seconds') ? reader.readTop(topShapes.seconds, 'seconds') : null,
    microphones: isSaid('microphones')
      ? reader.readTop(topShapes.microphones, 'microphones')
      : null,
  };
};

/**
 * Reads an outline (design, section 8): what a manual says of a library whose files can't be read.
 *
 * @param path as the user named it
 * @throws {InputError} with everything that is wrong, up to 20 faults by place
 */
export const parseOutline = (path: string, bytes: Uint8Array): ParsedOutline => {
  const faults = new Faults(path);
  if (bytes.length > largestOutline) {
    const args = { bytes: bytes.length, limit: largestOutline };
    throw new InputError(finding('error', 'outline-too-large', path, args));
  }
  const root = rootOf(bytes, faults);
  check(faults);
  const reader = new Reader(root!, faults, outlineVocabulary);
  unknownKeys(reader, root!, []);
  const middleC = readMiddleC(reader);
  const shapes = shapesOf(middleC);
  const defaults = readDefaults(reader);
  checkMicrophones(reader);
  const measured = readMeasured(reader);
  const own = readOwnFields(reader, shapes);
  const articulations = reader.top('articulations')?.value;
  if (own.length === 0 && (articulations === undefined || articulations.kind === 'map')) {
    faults.add(articulations?.at ?? root!.at, 'outline-no-articulations', () => ({}));
  }
  const filled = fillLike(own, faults);
  const choices = readChoices(reader, shapes, own, filled);
  check(faults);
  const { count, first } = countAsked(root!);
  return {
    outline: {
      path,
      middleC,
      articulations: own.map((one, i) => toArticulation(one, filled[i]!, choices[i]!, defaults)),
      measured,
    },
    findings: count === 0 ? [] : [finding('note', 'outline-open', path, { count }, first)],
  };
};
