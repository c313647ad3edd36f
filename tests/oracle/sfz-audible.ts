/** What can be heard: crossfades by key and velocity, velocity curves, and fades by controllers. */
import { doubtBits, plain } from './doubts.ts';
import { known, type Condition, type Test } from './sfz-conditions.ts';
import { realOf } from './sfz-numbers.ts';
import {
  integer,
  linesThrough,
  numbersOf,
  playingKey,
  real,
  type OracleInstrument,
  type OracleRegion,
} from './sfz-regions.ts';
import { controllerSignal, type MessageSignal, type Signal } from './sfz-signals.ts';
import { within, type Span } from './sfz-switches.ts';

const { engine } = doubtBits;
const anything: Span = [-Infinity, Infinity];

/** In: silent up to the lower limit. Equal limits: heard from there on. Reversed: no restriction. */
function fadeIn(lo: number | undefined, hi: number | undefined): Span {
  const [lowest, highest] = [lo ?? 0, hi ?? 0];
  if (lowest > highest) return anything;
  return [lowest < highest ? lowest + 1 : lowest, Infinity];
}

/** Out: silent from the upper limit on. Equal limits: heard up to there. Reversed: no restriction. */
function fadeOut(lo: number | undefined, hi: number | undefined): Span {
  const [lowest, highest] = [lo ?? 127, hi ?? 127];
  if (lowest > highest) return anything;
  return [-Infinity, lowest < highest ? highest - 1 : highest];
}

/** Whether a key is heard, fixed at its note-on. */
export function keyIsHeard(region: OracleRegion, key: number): Condition {
  const isHeard = (offset: number): boolean => {
    const given = (name: string) => {
      const written = playingKey(region, name);
      return written === undefined ? undefined : written - offset;
    };
    const fades = [
      ...(has(region, 'xfin_lokey', 'xfin_hikey')
        ? [fadeIn(given('xfin_lokey'), given('xfin_hikey'))]
        : []),
      ...(has(region, 'xfout_lokey', 'xfout_hikey')
        ? [fadeOut(given('xfout_lokey'), given('xfout_hikey'))]
        : []),
    ];
    return fades.every((span) => within(key, span));
  };
  // Activation D: some engines move the keys that play and not those that fade.
  return known([isHeard(0), plain], [isHeard(region.offsets.keys), doubtBits.engine]);
}

/** Whether a velocity is heard; the signal is null where the velocity is known. */
export function velocityIsHeard(
  region: OracleRegion,
  signal: Signal | null,
  velocity: number,
): Condition {
  const given = (name: string) => integer(region, name);
  const fades = [
    ...(has(region, 'xfin_lovel', 'xfin_hivel')
      ? [fadeIn(given('xfin_lovel'), given('xfin_hivel'))]
      : []),
    ...(has(region, 'xfout_lovel', 'xfout_hivel')
      ? [fadeOut(given('xfout_lovel'), given('xfout_hivel'))]
      : []),
  ];
  const faded = (v: number) => fades.every((span) => within(v, span));
  const test = (accepts: (v: number) => boolean, doubts: number): Test => ({
    signal,
    accepts: (value) => accepts(signal === null ? velocity : value),
    doubts,
  });

  const track = real(region, 'amp_veltrack') ?? 100;
  const moved = [...region.opcodes.keys()].some((name) =>
    /^amp_veltrack_(cc|oncc|random)/.test(name),
  );
  const curve = velocityCurve(region);
  if (moved || (track !== 100 && track !== -100)) return [test(faded, plain)];
  if (track === 100) return [test((v) => faded(v) && curve(v) !== 0, plain)];
  return [test((v) => faded(v) && curve(v) !== 1, plain), test(faded, engine)];
}

function velocityCurve(region: OracleRegion): (velocity: number) => number {
  const points = numbersOf(region, 'amp_velcurve_')
    .filter((number) => number <= 127)
    .map((number) => [number, real(region, `amp_velcurve_${number}`)!] as const);
  if (points.length === 0) return (velocity) => (velocity / 127) ** 2;
  const curve = linesThrough(new Map(points));
  return (velocity) => curve[velocity]!;
}

/** A controller that has to be somewhere for the voice to be heard. */
export interface Fade {
  readonly signal: MessageSignal;
  /** The values at which it is heard, in each reading. */
  readonly heard: readonly { readonly span: Span; readonly doubts: number }[];
}

/** One fade for each controller that any opcode fades by. */
export function fadesOf(instrument: OracleInstrument, region: OracleRegion): Fade[] {
  const numbers = numbersOf(
    region,
    ...['xfin_locc', 'xfin_hicc', 'xfout_locc', 'xfout_hicc', 'amplitude_oncc'],
  );
  return numbers
    .filter((number) => number <= 127)
    .map((number) => {
      const spans: Span[] = [];
      const cc = (name: string) => {
        const value = integer(region, `${name}cc${number}`);
        return value === undefined ? undefined : Math.min(Math.max(value, 0), 127);
      };
      if (has(region, `xfin_locc${number}`, `xfin_hicc${number}`)) {
        spans.push(fadeIn(cc('xfin_lo'), cc('xfin_hi')));
      }
      const out = [cc('xfout_lo') ?? 0, cc('xfout_hi') ?? 127] as const;
      const outGiven = has(region, `xfout_locc${number}`, `xfout_hicc${number}`);
      // An engine knows the pair 0 and 0 as "no crossfade".
      const outIsLoose = outGiven && out[0] === 0 && out[1] === 0;
      if ((real(region, `amplitude_oncc${number}`) ?? 0) !== 0) {
        spans.push(curveIsHeard(instrument, integer(region, `amplitude_curvecc${number}`) ?? 0));
      }
      return {
        signal: controllerSignal(instrument, number),
        heard: [
          { span: common([...spans, ...(outGiven ? [fadeOut(...out)] : [])]), doubts: plain },
          ...(outIsLoose ? [{ span: common(spans), doubts: engine }] : []),
        ],
      };
    });
}

/** From the lowest to the highest controller value at which a curve is not 0. */
function curveIsHeard({ curves }: OracleInstrument, index: number): Span {
  const own = curves.get(index);
  if (own !== undefined) {
    const lowest = own.findIndex((value) => value !== 0);
    return lowest < 0 ? [1, 0] : [lowest, own.findLastIndex((value) => value !== 0)];
  }
  // Linear, concave, and the power curve upwards; inverted, and the power curve downwards.
  if ([0, 4, 5].includes(index)) return [1, 127];
  if ([2, 6].includes(index)) return [0, 126];
  return anything;
}

/** How long a voice fades after its release, in seconds: the longest that controllers may make it. */
export function releaseSeconds(region: OracleRegion): number {
  let seconds = real(region, 'ampeg_release') ?? 0.001;
  for (const [name, text] of region.opcodes) {
    if (/^ampeg_release_?(on)?cc\d+$/.test(name)) seconds += Math.max(realOf(text)!, 0);
  }
  return seconds;
}

function common(spans: readonly Span[]): Span {
  return [
    Math.max(...spans.map(([lowest]) => lowest), -Infinity),
    Math.min(...spans.map(([, highest]) => highest), Infinity),
  ];
}

function has(region: OracleRegion, ...names: readonly string[]): boolean {
  return names.some((name) => region.opcodes.has(name));
}
