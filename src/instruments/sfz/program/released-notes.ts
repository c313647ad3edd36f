import { isRelease } from './hold.ts';
import type { NamedRegion } from './named-region.ts';
import { keyReadings } from './key-range.ts';
import type { RangeReading } from './range-reading.ts';
import { velocityReadings } from './velocity-range.ts';

/** Keys and velocities, 0-127 each, and a border below. */
const side = 129;

/**
 * The notes that a release region answers to. Engines play one only where an attack of the same keys
 * and velocities has a voice (sfizz 1.2.3, measured), and a voice that is never heard will do: so
 * what starts on such a note matters without a sound as well.
 */
export class ReleasedNotes {
  /** How many release regions answer to the notes up to a key and a velocity. */
  readonly #upTo: Float64Array | null;

  constructor(regions: readonly NamedRegion[]) {
    const releases = regions.filter(({ opcodes }) => isRelease(opcodes));
    this.#upTo = releases.length === 0 ? null : summed(summed(cornersOf(releases)));
  }

  /** Some note with one of these keys and one of these velocities is among them. */
  has(keys: readonly RangeReading[], velocities: readonly RangeReading[]): boolean {
    const upTo = this.#upTo;
    if (upTo === null) return false;
    const count = (key: number, velocity: number): number =>
      upTo[(key + 1) * side + velocity + 1] ?? 0;
    return boxes(keys, velocities).some(
      ([lowest, highest, softest, hardest]) =>
        count(highest, hardest) +
          count(lowest - 1, softest - 1) -
          count(lowest - 1, hardest) -
          count(highest, softest - 1) >
        0,
    );
  }
}

type Box = readonly [lowest: number, highest: number, softest: number, hardest: number];

/** The notes that can be played: velocity 0 is none. */
const boxes = (
  keys: readonly RangeReading[],
  velocities: readonly RangeReading[],
): readonly Box[] =>
  keys.flatMap(({ range: [loKey, hiKey] }) =>
    velocities.flatMap(({ range: [loVelocity, hiVelocity] }): readonly Box[] => {
      const box = [
        Math.max(loKey, 0),
        Math.min(hiKey, 127),
        Math.max(loVelocity, 1),
        Math.min(hiVelocity, 127),
      ] as const;
      return box[0] > box[1] || box[2] > box[3] ? [] : [box];
    }),
  );

/** Summed once, it says how many regions answer to each note, whatever their number. */
const cornersOf = (regions: readonly NamedRegion[]): Float64Array => {
  const corners = new Float64Array(side * side);
  const add = (key: number, velocity: number, n: number): void => {
    if (key <= 127 && velocity <= 127) corners[(key + 1) * side + velocity + 1]! += n;
  };
  for (const { region, opcodes } of regions) {
    const all = boxes(keyReadings(opcodes, region), velocityReadings(opcodes));
    for (const [lowest, highest, softest, hardest] of all) {
      add(lowest, softest, 1);
      add(highest + 1, softest, -1);
      add(lowest, hardest + 1, -1);
      add(highest + 1, hardest + 1, 1);
    }
  }
  return corners;
};

/** Each value with all that lie below it in both directions. */
const summed = (values: Float64Array): Float64Array => {
  const sums = new Float64Array(values.length);
  for (let key = 1; key < side; key++) {
    for (let velocity = 1; velocity < side; velocity++) {
      const at = key * side + velocity;
      sums[at] = values[at]! + sums[at - 1]! + sums[at - side]! - sums[at - side - 1]!;
    }
  }
  return sums;
};
