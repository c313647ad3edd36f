import { plain } from '../../../terms/doubt.ts';
import { toRanges } from '../../../terms/range.ts';
import { crossfadeRange } from './crossfade.ts';
import { linearPoints } from '../structure/curves.ts';
import { cut, engine, rangeReadings, type RangeReading } from './range-reading.ts';
import type { RegionOpcodes } from './region-opcodes.ts';

const everyVelocity = [0, 127] as const;

/** The velocities whose notes start a region. */
export const velocityReadings = (opcodes: RegionOpcodes): readonly RangeReading[] =>
  rangeReadings(
    { value: opcodes.whole('lovel'), absent: 0 },
    { value: opcodes.whole('hivel'), absent: 127 },
    everyVelocity,
  );

/** The same, without those at which crossfades or the velocity curve leave nothing to be heard. */
export const audibleVelocities = (
  readings: readonly RangeReading[],
  opcodes: RegionOpcodes,
): readonly RangeReading[] => {
  const faded = crossfadeRange((name) => opcodes.whole(name), 'vel');
  return cut(cut(readings, [{ range: faded, doubt: plain }]), curveReadings(opcodes));
};

const everything: readonly RangeReading[] = [{ range: everyVelocity, doubt: plain }];

/**
 * Where `amp_veltrack` and `amp_velcurve_N` leave a gain above 0. At full tracking the gain is the
 * curve itself; at full inverse tracking what is left of 1, and engines do not agree that nothing is
 * left at the top. In between nothing is silent.
 */
const curveReadings = (opcodes: RegionOpcodes): readonly RangeReading[] => {
  const tracking = opcodes.number('amp_veltrack') ?? 100;
  if (Math.abs(tracking) !== 100 || isModulated(opcodes)) return everything;
  const gains = curveOf(opcodes);
  const silent = tracking === 100 ? 0 : 1;
  const heard = gains.flatMap((gain, velocity) => (gain === silent ? [] : [velocity]));
  const readings = toRanges(heard).map((range) => ({ range, doubt: plain }));
  if (tracking === 100 || heard.length === gains.length) return readings;
  return [...readings, { range: everyVelocity, doubt: engine }];
};

const isModulated = (opcodes: RegionOpcodes): boolean =>
  [...opcodes.names].some((name) => modulated.test(name));

const modulated = /^amp_veltrack_(?:on)?(?:cc|random)/u;

/** Gain by velocity, 128 values: straight lines between the points given, else a square. */
const curveOf = (opcodes: RegionOpcodes): readonly number[] => {
  const points = new Map<number, number>();
  for (const velocity of opcodes.numbered('amp_velcurve_')) {
    const gain = opcodes.number(`amp_velcurve_${String(velocity)}`);
    if (velocity <= 127 && gain !== null) points.set(velocity, gain);
  }
  if (points.size > 0) return linearPoints(points);
  return Array.from({ length: 128 }, (_, velocity) => (velocity / 127) ** 2);
};
