import { inputError } from '../../terms/errors.ts';
import type { ZoneLists } from '../../instruments/soundfont/hydra.ts';
import { recordBytes, type List, type ListName } from '../../instruments/soundfont/lists.ts';
import { generator } from '../../instruments/soundfont/zones.ts';
import type { Generator, KeptOwner, KeptZone } from './kept-zones.ts';
import { concatenated } from './riff-pieces.ts';

/** The zones of all presets, or of all instruments, as the lists hold them. */
export interface WrittenZones {
  readonly bags: Uint8Array;
  readonly modulators: Uint8Array;
  readonly generators: Uint8Array;
  /** For each owner the index of its first zone, then one more: where the last one's zones end. */
  readonly firstBags: readonly number[];
  /** The zones in their new order: a zone's index here is its new one. */
  readonly zones: readonly KeptZone[];
}

/** Every index is an unsigned 16-bit number, that of the terminal record too. */
const mostRecords = 65_536;

/**
 * Writes the zones that stay. Generators and modulators come out as they stood, unknown and ignored
 * ones too; only what leads to an instrument or a sample gets its new number.
 *
 * @param modulators the bank's own list of them
 * @param renumber new index of each target that stays
 * @throws {InputError} `bank-too-large` when made zones bring a list over what an index can name
 */
export const writeZones = (
  path: string,
  lists: ZoneLists,
  modulators: List,
  owners: readonly KeptOwner[],
  renumber: ReadonlyMap<number, number>,
): WrittenZones => {
  const level = lists.generatorChunk === 'pgen' ? 'p' : 'i';
  const link = level === 'p' ? generator.instrument : generator.sampleId;
  const bags: (readonly [number, number])[] = [];
  const generators: Generator[] = [];
  const modulatorParts: Uint8Array[] = [];
  let modulatorCount = 0;
  const firstBags: number[] = [];
  const size = recordBytes[modulators.name];
  for (const { zones } of owners) {
    firstBags.push(bags.length);
    for (const zone of zones) {
      bags.push([generators.length, modulatorCount]);
      const own = zone.kind === 'own' ? generatorsOf(lists, zone.bag) : zone.generators;
      generators.push(...renumbered(own, link, renumber));
      if (zone.kind === 'made') continue;
      const first = lists.firstModulator[zone.bag]!;
      const end = lists.firstModulator[zone.bag + 1]!;
      modulatorParts.push(modulators.bytes.subarray(first * size, end * size));
      modulatorCount += end - first;
    }
  }
  firstBags.push(bags.length);
  bags.push([generators.length, modulatorCount]);
  // The terminal generator and modulator are all zero (SoundFont 2.04, sections 7.4, 7.5, 7.8, 7.9).
  generators.push([0, 0]);
  modulatorParts.push(new Uint8Array(size));
  checkCount(path, `${level}bag`, bags.length);
  checkCount(path, `${level}gen`, generators.length);
  return {
    bags: pairs(bags),
    modulators: concatenated(modulatorParts),
    generators: pairs(generators),
    firstBags,
    zones: owners.flatMap(({ zones }) => zones),
  };
};

const generatorsOf = (
  { firstGenerator, operators, amounts }: ZoneLists,
  bag: number,
): readonly Generator[] => {
  const found: Generator[] = [];
  for (let i = firstGenerator[bag]!; i < firstGenerator[bag + 1]!; i++) {
    found.push([operators[i]!, amounts[i]!]);
  }
  return found;
};

/**
 * The first generator that leads to a target is what counts. Another one behind it is ignored, but
 * must not name what is no more: it leads to the same target then.
 */
const renumbered = (
  generators: readonly Generator[],
  link: number,
  renumber: ReadonlyMap<number, number>,
): readonly Generator[] => {
  const first = generators.find(([operator]) => operator === link);
  if (first === undefined) return generators;
  const target = renumber.get(first[1])!;
  return generators.map(([operator, amount]) => [
    operator,
    operator === link ? (renumber.get(amount) ?? target) : amount,
  ]);
};

const checkCount = (path: string, chunk: ListName, count: number): void => {
  if (count > mostRecords) throw inputError('bank-too-large', path, { chunk, count });
};

/** Records of two unsigned 16-bit numbers. */
const pairs = (rows: readonly (readonly [number, number])[]): Uint8Array => {
  const bytes = new Uint8Array(rows.length * 4);
  const view = new DataView(bytes.buffer);
  for (const [i, [first, second]] of rows.entries()) {
    view.setUint16(i * 4, first, true);
    view.setUint16(i * 4 + 2, second, true);
  }
  return bytes;
};
