/** The gates of a region: what has to hold at the moment of a start, whatever starts it. */
import { doubtBits, plain } from './doubts.ts';
import { known, type Condition, type Test } from './sfz-conditions.ts';
import type { SfzCue } from './sfz-data.ts';
import { keyHeld } from './sfz-held.ts';
import { integer, isNoKey, numbersOf, real, switchKey } from './sfz-regions.ts';
import type { OracleInstrument, OracleRegion } from './sfz-regions.ts';
import {
  bendSignal,
  choosingSignal,
  controllerSignal,
  polyPressureSignal,
  pressureSignal,
  previousKey,
  type Signal,
} from './sfz-signals.ts';
import { rangeOf, switchTests, within, type Copy, type Span } from './sfz-switches.ts';

const { engine } = doubtBits;
const ignored: Test = { signal: null, accepts: () => true, doubts: engine };

/** What starts, as far as gates ask. */
export interface Asked {
  /** null: a start without a key, from a controller. */
  readonly key: number | null;
  /** Of the event, or of the note-on of what is released: 0-15. */
  readonly channel: number;
}

/**
 * Both readings of a pair of limits: out of range they are brought to the border, or do not count.
 * `defaults` are the limits where none is given.
 */
export function limits(
  lowest: number | undefined,
  highest: number | undefined,
  [least, most]: Span,
  mark?: number,
): { readonly plain: Span; readonly loose: Span } {
  const clamp = (value: number) =>
    value === mark ? value : Math.min(Math.max(value, least), most);
  const isOut = (value: number) => clamp(value) !== value;
  const loose = (value: number, otherwise: number) => (isOut(value) ? otherwise : value);
  const [lo, hi] = [lowest ?? least, highest ?? most];
  return { plain: [clamp(lo), clamp(hi)], loose: [loose(lo, least), loose(hi, most)] };
}

function ranged(
  signal: Signal,
  readings: { plain: Span; loose: Span },
  scale = (value: number) => value,
): Test[] {
  return [
    { signal, accepts: (value) => within(scale(value), readings.plain), doubts: plain },
    { signal, accepts: (value) => within(scale(value), readings.loose), doubts: engine },
  ];
}

/** All gates of a region, for one start. */
export function gatesOf(
  copy: Copy,
  region: OracleRegion,
  cue: SfzCue,
  tick: number,
  asked: Asked,
): Condition[] {
  const { instrument, reel, chooses } = copy;
  const poly = polyPressureSignal(asked.key);
  const anyPoly = polyPressureSignal(null);
  const pair = (name: string, span: Span) =>
    limits(integer(region, `lo${name}`), integer(region, `hi${name}`), span);
  const given = (name: string) =>
    region.opcodes.has(`lo${name}`) || region.opcodes.has(`hi${name}`);

  const program = choosingSignal(
    'program',
    0,
    Array.from({ length: 128 }, (_, value) => value),
    reel,
    chooses,
    (event) => (event.kind === 'program' ? event.data1 : null),
  );
  const channel = pair('chan', [1, 16]);

  return [
    ...controllerGates(instrument, region, poly, anyPoly),
    ...(given('bend') ? [[...ranged(bendSignal, pair('bend', [-8192, 8191])), ignored]] : []),
    ...(given('chanaft') ? [ranged(pressureSignal, pair('chanaft', [0, 127]))] : []),
    ...(given('polyaft')
      ? [
          [
            ...ranged(poly, pair('polyaft', [0, 127])),
            ...ranged(anyPoly, pair('polyaft', [0, 127])).map(asEngine),
          ],
        ]
      : []),
    ...(given('prog') ? [ranged(program, pair('prog', [0, 127]))] : []),
    ...(given('bpm') ? [known([tempoFits(region, cue, tick), plain], [true, engine])] : []),
    ...(given('chan')
      ? [known([within(asked.channel + 1, channel.plain), plain], [true, engine])]
      : []),
    ...switchGates(copy, region),
  ];
}

/** loccN and lohdccN; from 128 on these are bend, pressure and poly pressure, from 131 on nothing. */
function controllerGates(
  instrument: OracleInstrument,
  region: OracleRegion,
  poly: Signal,
  anyPoly: Signal,
): Condition[] {
  const plainFamily = numbersOf(region, 'locc', 'hicc').map((number) => ({
    number,
    span: limits(integer(region, `locc${number}`), integer(region, `hicc${number}`), [0, 127]),
  }));
  const fineFamily = numbersOf(region, 'lohdcc', 'hihdcc').map((number) => {
    const span = fineSpan(region, 'lohdcc', 'hihdcc', number);
    return { number, span: { plain: span, loose: span } };
  });

  return [...plainFamily, ...fineFamily].flatMap(({ number, span }): Condition[] => {
    if (number <= 127) return [ranged(controllerSignal(instrument, number), span)];
    if (number === 128) return [[...ranged(bendSignal, span, scaledBend), ignored]];
    if (number === 129) return [[...ranged(pressureSignal, span), ignored]];
    if (number !== 130) return [];
    return [[...ranged(poly, span), ...ranged(anyPoly, span).map(asEngine), ignored]];
  });
}

/** True when no value at all could open some gate of the region, by any reading. */
export function neverOpens(region: OracleRegion): boolean {
  const pair = (lo: string, hi: string) =>
    limits(integer(region, lo), integer(region, hi), [0, 127]);
  const spans = [
    ...numbersOf(region, 'locc', 'hicc')
      .filter((number) => number <= 127)
      .map((number) => pair(`locc${number}`, `hicc${number}`)),
    ...['prog', 'chanaft', 'polyaft'].map((name) => pair(`lo${name}`, `hi${name}`)),
    ...numbersOf(region, 'lohdcc', 'hihdcc')
      .filter((number) => number <= 127)
      .map((number) => {
        const span = fineSpan(region, 'lohdcc', 'hihdcc', number);
        return { plain: span, loose: span };
      }),
  ];
  return spans.some(({ plain: [a, b], loose: [c, d] }) => a > b && c > d);
}

/** Fractions of 127 as whole controller values. */
export function fineSpan(region: OracleRegion, lo: string, hi: string, number: number): Span {
  const lowest = (real(region, `${lo}${number}`) ?? 0) - 1e-9;
  const highest = (real(region, `${hi}${number}`) ?? 1) + 1e-9;
  return [Math.ceil(lowest * 127) + 0, Math.floor(highest * 127)];
}

/** The bend on the scale of controllers: 0 to 127, not rounded. */
export function scaledBend(bend: number): number {
  return ((bend + 8192) * 127) / 16383;
}

/** Tempo has no order: what stands on a tick holds for all of it. */
function tempoFits(region: OracleRegion, cue: SfzCue, tick: number): boolean {
  const upTo = Math.min(tick, cue.events.at(-1)?.tick ?? 0);
  const bpm = cue.tempos.findLast((tempo) => tempo.tick <= upTo)?.bpm ?? 120;
  return within(bpm, [real(region, 'lobpm') ?? 0, real(region, 'hibpm') ?? 500]);
}

function switchGates(copy: Copy, region: OracleRegion): Condition[] {
  const conditions: Condition[] = [];
  const last = switchTests(copy, region).map(({ signal, named, doubts }): Test => ({
    signal,
    accepts: (key) => within(key, named),
    doubts,
  }));
  const isRange = ['sw_lolast', 'sw_hilast'].some((name) => region.opcodes.has(name));
  const deciding = isRange ? ['sw_lolast', 'sw_hilast'] : ['sw_last'];
  if (last.length > 0) conditions.push([...last, ...ifNoKey(region, ...deciding)]);

  const held = (value: number) => value > 0;
  const up = (value: number) => value === 0;
  // The range and the key as one reading has them, with the offset of the playing keys or without.
  const readings = (name: string) =>
    [true, false].flatMap((shifted) => {
      const key = switchKey(region, name, shifted);
      const range = rangeOf(region, shifted);
      if (key === undefined) return [];
      const inside = range === null || within(key, range);
      return [{ key, inside, doubts: shifted ? plain : engine }];
    });

  const downs = readings('sw_down').map(({ key, inside, doubts }): Test => ({
    signal: keyHeld(key),
    accepts: held,
    doubts: inside ? doubts : engine,
  }));
  if (downs.length > 0) conditions.push([...downs, ...ifNoKey(region, 'sw_down')]);
  const ups = readings('sw_up').map(({ key, inside, doubts }): Test =>
    inside ? { signal: keyHeld(key), accepts: up, doubts } : { ...ignored, doubts },
  );
  if (ups.length > 0) conditions.push([...ups, ...ifNoKey(region, 'sw_up')]);
  const previous = readings('sw_previous').map(({ key, doubts }): Test => ({
    signal: previousKey,
    accepts: (value) => value === key,
    doubts,
  }));
  if (previous.length > 0) conditions.push([...previous, ...ifNoKey(region, 'sw_previous')]);
  return conditions;
}

/** A condition on what is no key may count as not written. */
function ifNoKey(region: OracleRegion, ...names: readonly string[]): Test[] {
  return names.some((name) => isNoKey(region, name)) ? [ignored] : [];
}

function asEngine(test: Test): Test {
  return { ...test, doubts: test.doubts | engine };
}
