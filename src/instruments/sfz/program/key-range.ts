import { keyOf } from '../text/numbers.ts';
import type { Region } from '../structure/regions.ts';
import { plain } from '../../../terms/doubt.ts';
import type { Range } from '../../../terms/range.ts';
import { cut, engine, rangeReadings, type RangeReading } from './range-reading.ts';
import type { RegionOpcodes } from './region-opcodes.ts';
import { crossfadeRange } from './crossfade.ts';

/** -1 is below every key: a region up to there is started by no note. */
const allowed = [-1, 127] as const;

/**
 * The keys whose notes start a region: `lokey`, `hikey` and `key`, which sets both, in the order in
 * which they apply, moved by the offsets of `<control>`.
 */
export const keyReadings = (
  opcodes: RegionOpcodes,
  { control: { noteOffset } }: Pick<Region, 'control'>,
): readonly RangeReading[] => {
  let lo: number | null = null;
  let hi: number | null = null;
  for (const { name, value } of opcodes.inOrder) {
    if (name !== 'key' && name !== 'lokey' && name !== 'hikey') continue;
    const key = keyOf(value);
    if (key === null) continue;
    const moved = key < 0 ? key : key + noteOffset;
    if (name !== 'hikey') lo = moved;
    if (name !== 'lokey') hi = moved;
  }
  return rangeReadings({ value: lo, absent: 0 }, { value: hi, absent: 127 }, allowed);
};

/** The same, without the keys at which crossfades leave nothing to be heard. */
export const audibleKeys = (
  readings: readonly RangeReading[],
  opcodes: RegionOpcodes,
  { control: { noteOffset } }: Pick<Region, 'control'>,
): readonly RangeReading[] => {
  const heard = (offset: number): Range =>
    crossfadeRange((name) => {
      const key = opcodes.key(name);
      return key === null ? null : key + offset;
    }, 'key');
  // Some engines move the keys that play and not those that fade.
  const unmoved = noteOffset === 0 ? [] : [{ range: heard(0), doubt: engine }];
  return cut(readings, [{ range: heard(noteOffset), doubt: plain }, ...unmoved]);
};
