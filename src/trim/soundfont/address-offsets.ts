import type { ZoneLists } from '../../instruments/soundfont/hydra.ts';
import { generator } from '../../instruments/soundfont/zones.ts';

/** By how many points a zone moves the addresses of its sample. */
export interface AddressOffsets {
  readonly start: number;
  readonly end: number;
  readonly loopStart: number;
  readonly loopEnd: number;
}

/** The fine and the coarse generator of each address (SoundFont 2.04, section 8.1.2). */
const operators = {
  start: [0, 4],
  end: [1, 12],
  loopStart: [2, 45],
  loopEnd: [3, 50],
} as const;

/** Points that a coarse generator counts by. */
const coarseStep = 32_768;

const all: ReadonlySet<number> = new Set(Object.values(operators).flat());

/** Amounts of the address generators in one zone, by operator; of equal ones the last counts (7.9). */
export type AddressAmounts = ReadonlyMap<number, number>;

export const addressAmounts = (lists: ZoneLists, bag: number): AddressAmounts => {
  const amounts = new Map<number, number>();
  const { firstGenerator } = lists;
  for (let i = firstGenerator[bag]!; i < firstGenerator[bag + 1]!; i++) {
    const operator = lists.operators[i]!;
    // What stands behind the sample is ignored.
    if (operator === generator.sampleId) break;
    if (all.has(operator)) amounts.set(operator, (lists.amounts[i]! << 16) >> 16);
  }
  return amounts;
};

/** @param global of the zone's global one: its own amounts replace them, each for itself (9.4) */
export const addressOffsets = (own: AddressAmounts, global: AddressAmounts): AddressOffsets => {
  const amount = (operator: number): number => own.get(operator) ?? global.get(operator) ?? 0;
  const offset = ([fine, coarse]: readonly [number, number]): number =>
    amount(fine) + coarseStep * amount(coarse);
  return {
    start: offset(operators.start),
    end: offset(operators.end),
    loopStart: offset(operators.loopStart),
    loopEnd: offset(operators.loopEnd),
  };
};
