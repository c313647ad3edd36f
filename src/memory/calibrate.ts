import type { Instrument } from '../instruments/instrument.ts';
import type { FileReading, Reading } from '../instruments/reading.ts';
import { fold } from '../notation/fold.ts';
import type { Player } from '../template/player.ts';
import { finding, type Finding } from '../terms/finding.ts';
import { computed as uncalibrated, type Calibration, type Line } from './calibration.ts';
import { computedCopy } from './computed-load.ts';
import { leastSquares, throughOrigin, type Point } from './least-squares.ts';
import { nearestReading, readingZones } from './reading-zones.ts';
import type { ZoneMask } from './zone-mask.ts';

/** A calibration and what was found on the way. */
export interface Calibrated {
  readonly calibration: Calibration;
  readonly findings: readonly Finding[];
}

/** A reading with what is computed for one copy in its state. */
interface State extends Point {
  readonly reading: FileReading;
  readonly zones: ZoneMask;
}

/**
 * Fits what the player's display showed to what is computed (design, section 7). Two amounts that
 * differ give a line. One gives two: what the display adds may grow with the samples or may not.
 *
 * @param readings those of the template; the instrument's own come behind them, but for those of the same
 *   name
 * @param file the template that the readings stand in
 * @returns findings `reading-articulation`, whose reading is left out, and `readings-contradict`
 */
export const calibrate = (
  instrument: Instrument,
  player: Player,
  readings: readonly Reading[],
  file: string | null,
): Calibrated => {
  const findings: Finding[] = [];
  const states = withOwn(instrument, readings, file).flatMap((reading): State[] => {
    const zones = readingZones(instrument, reading.of);
    if (zones === null) {
      findings.push(unknownArticulation(instrument, reading));
      return [];
    }
    return [
      { reading, zones, computed: computedCopy(instrument, player, zones), shown: reading.bytes },
    ];
  });
  if (states.length === 0) return { calibration: uncalibrated, findings };
  const line = fit(instrument, states);
  if (line !== null && line.factor < 0) {
    const { reading } = largest(states);
    const args = { instrument: instrument.id, used: reading.of };
    findings.push(finding('warning', 'readings-contradict', reading.file, args, reading.at));
  }
  const lines: readonly [Line, ...Line[]] =
    line === null || line.factor < 0 ? byOne(largest(states)) : [line];
  return { calibration: calibrationOf(states, lines), findings };
};

const withOwn = (
  { readings: own = [] }: Instrument,
  readings: readonly Reading[],
  file: string | null,
): readonly FileReading[] => {
  const given = new Set(readings.map(({ of }) => fold(of)));
  return [
    ...readings.map((reading) => ({ ...reading, file })),
    ...own.filter(({ of }) => !given.has(fold(of))),
  ];
};

/**
 * A single articulation whose sizes are nothing but what its reading showed: the two agree but for
 * rounding, and between several of them there is no line.
 */
const isItsOwnSize = ({ zones, samples }: Instrument, { reading, zones: mask }: State): boolean => {
  const loaded = zones.flatMap((zone, i) => (mask[i] === 1 ? zone.samples : []));
  return (
    reading.of !== 'full' &&
    loaded.length > 0 &&
    loaded.every((sample) => samples[sample]!.asLoaded === true)
  );
};

const fit = (instrument: Instrument, states: readonly State[]): Line | null => {
  if (states.every((state) => isItsOwnSize(instrument, state))) return null;
  const line = leastSquares(states);
  return line !== null && line.fixed < 0 ? throughOrigin(states) : line;
};

/** The state with most computed, as it says most; the first of several. */
const largest = (states: readonly State[]): State =>
  states.reduce((a, b) => (b.computed > a.computed ? b : a));

/** One reading leaves open whether the difference is a fixed part or a factor; the likely line first. */
const byOne = ({ computed, shown }: Point): readonly [Line, Line] =>
  computed === 0
    ? [
        { fixed: shown, factor: 1 },
        { fixed: 0, factor: 1 },
      ]
    : [
        { fixed: 0, factor: shown / computed },
        { fixed: shown - computed, factor: 1 },
      ];

const calibrationOf = (
  states: readonly State[],
  lines: readonly [Line, ...Line[]],
): Calibration => {
  const [{ fixed, factor }] = lines;
  const off = states.map(({ computed, shown }) => Math.abs(shown - (fixed + factor * computed)));
  return {
    basis: 'fitted',
    readings: states.length,
    lines,
    residual: Math.max(...off),
    states: states.map(({ zones, shown }) => ({ zones, bytes: shown })),
  };
};

const unknownArticulation = (instrument: Instrument, { of, at, file }: FileReading): Finding => {
  const near = nearestReading(instrument, of);
  const args = { instrument: instrument.id, articulation: of, near };
  return finding('warning', 'reading-articulation', file, args, at);
};
