import type { Range } from '../../terms/range.ts';
import { badIndex, type Stretch, type ZoneLists } from './hydra.ts';

/** Generators that decide which zones sound (SoundFont 2.04, section 8.1.2). */
export const generator = { instrument: 41, keyRange: 43, velRange: 44, sampleId: 53 } as const;

/** What a zone says about keys and velocities itself; null where it says nothing. */
export interface OwnRanges {
  readonly keys: Range | null;
  readonly velocities: Range | null;
}

/** A zone that leads to an instrument or a sample. */
export interface BankZone extends OwnRanges {
  /** Its index in `pbag` or `ibag`, over the whole file. */
  readonly bag: number;
  /** Index of its instrument (preset level) or sample (instrument level). */
  readonly target: number;
}

/** The zones of one preset or instrument that count. */
export interface ZoneSet {
  /** What the global zone says; without one, nothing. */
  readonly global: OwnRanges;
  readonly zones: readonly BankZone[];
}

/**
 * The zones of one preset or one instrument (SoundFont 2.04, sections 7.3, 7.7). The first of several
 * is global when it leads nowhere; any other zone that leads nowhere is ignored.
 *
 * @param targets how many instruments or samples there are
 * @throws {InputError} `bank-index` when a zone leads to one that does not exist (7.5, 7.9)
 */
export const readZones = (
  path: string,
  lists: ZoneLists,
  { from, to }: Stretch,
  targets: number,
): ZoneSet => {
  let global: OwnRanges = { keys: null, velocities: null };
  const zones: BankZone[] = [];
  for (let bag = from; bag < to; bag++) {
    const { target, ...own } = readZone(path, lists, bag, targets);
    if (target !== null) zones.push({ bag, target, ...own });
    // Without another zone there is nothing for a global one to act on, so "several" needs no test.
    else if (bag === from) global = own;
  }
  return { global, zones };
};

/**
 * The generators of one zone (sections 7.5, 7.9). Key range counts only as the first generator,
 * velocity range only where nothing but key ranges stands before it; so neither can be given twice,
 * and the rule that the last of two equal generators wins never applies here. The generator that
 * leads to the target ends the zone: what follows is ignored. All others shape the sound and select
 * nothing; those that are illegal at their level or unknown (8.5, 10.3) still count as standing
 * before a range.
 */
const readZone = (path: string, lists: ZoneLists, bag: number, targets: number) => {
  const { generatorChunk, generatorStart, firstGenerator, operators, amounts } = lists;
  const link = generatorChunk === 'pgen' ? generator.instrument : generator.sampleId;
  const first = firstGenerator[bag]!;
  const end = firstGenerator[bag + 1]!;
  let keys: Range | null = null;
  let velocities: Range | null = null;
  let onlyKeyRanges = true;
  for (let i = first; i < end; i++) {
    const operator = operators[i]!;
    const amount = amounts[i]!;
    if (operator === link) {
      if (amount >= targets) throw badIndex(path, generatorChunk, generatorStart, i, amount);
      return { keys, velocities, target: amount };
    }
    if (operator === generator.keyRange && i === first) keys = rangeOf(amount);
    if (operator === generator.velRange && onlyKeyRanges) velocities = rangeOf(amount);
    onlyKeyRanges &&= operator === generator.keyRange;
  }
  return { keys, velocities, target: null };
};

/**
 * The low end is in the low byte, as the structure in section 7.5 and real banks have it; the prose
 * of section 8.1.2 says the opposite. What lies above 127 is cut off (10.5: the nearest value there
 * is); a range whose ends are the wrong way round holds nothing.
 */
const rangeOf = (amount: number): Range => [amount & 0xff, Math.min(amount >> 8, 127)];
