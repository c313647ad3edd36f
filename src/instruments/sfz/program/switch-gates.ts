import { plain } from '../../../terms/doubt.ts';
import { contains } from '../../../terms/range.ts';
import type { Condition, Signal, Test } from '../../program.ts';
import type { Region } from '../structure/regions.ts';
import type { Parts } from './parts.ts';
import { engine } from './range-reading.ts';
import type { RegionOpcodes } from './region-opcodes.ts';
import { isNoKey, movedSwitch, switchOf, watchedOf, type SwitchSignals } from './switch-signals.ts';

/** More keys than can be held. */
export const manyKeys = 4096;

/** The keyswitches of an instrument: as the documentation moves them, and without that offset. */
export interface InstrumentSwitches {
  readonly shifted: SwitchSignals;
  readonly unshifted: SwitchSignals;
  /** Some region stands under an offset: the two differ. */
  readonly isOffset: boolean;
}

/**
 * What keyswitches ask for; null when it can never be. Engines do not agree on whether switches are
 * watched range by range, on keys that no region names, on offsets, nor on values that are no key:
 * doubt `engine`.
 */
export const switchConditions = (
  opcodes: RegionOpcodes,
  region: Region,
  switches: InstrumentSwitches,
  parts: Parts,
): readonly Condition[] | null => {
  const conditions = [
    lastCondition(opcodes, region, switches, parts),
    heldCondition('sw_down', opcodes, region, parts),
    heldCondition('sw_up', opcodes, region, parts),
    previousCondition(opcodes, region, parts),
  ];
  const real = conditions.filter((one) => one !== 'always');
  return real.includes(null) ? null : real.filter((one) => one !== null);
};

type Made = Condition | null | 'always';

/** A switch that no key moves: whatever is asked of it is always so. */
const unmoved: Signal = { kind: 'switch', keys: [], initial: null };

/** What is asked, or nothing, should an engine take a value that is no key as if it were not there. */
const orNothing = (made: Made, isDropped: boolean, parts: Parts): Made => {
  if (!isDropped || made === 'always') return made;
  const signal = parts.signal(unmoved);
  const nothing = { lo: -1, hi: 127, doubt: engine };
  return made === null
    ? { signal, tests: [nothing] }
    : { ...made, tests: [...made.tests, { ...nothing, signal }] };
};

/** The last key pressed. */
const lastCondition = (
  opcodes: RegionOpcodes,
  region: Region,
  { shifted, unshifted, isOffset }: InstrumentSwitches,
  parts: Parts,
): Made => {
  const own = switchOf(opcodes, region);
  if (own === null) return 'always';
  const [lo, hi] = own.keys;
  const named = shifted.namedOnly(own);
  const readings: readonly (readonly [Signal, number, number, number])[] = [
    [shifted.plain(own), lo, hi, plain],
    ...(named === null ? [] : [[named, lo, hi, engine] as const]),
    [shifted.global(), lo, hi, engine],
  ];
  const other = isOffset ? switchOf(opcodes, region, false) : null;
  const moved =
    other === null
      ? []
      : [unshifted.plain(other), unshifted.namedOnly(other)].flatMap((signal) =>
          signal === null ? [] : [[signal, other.keys[0], other.keys[1], engine] as const],
        );
  const all = [...readings, ...moved].filter(([signal, from, to]) => canBe(signal, from, to));
  const made = anyOf(
    all.map(([signal, from, to, doubt]) => ({
      // Below every key: not what stands for no key pressed yet.
      lo: Math.max(from, 0),
      hi: to,
      doubt,
      signal: parts.signal(signal),
    })),
  );
  const limits = rangeNames.filter((name) => opcodes.key(name) !== null);
  const isDropped = (limits.length === 0 ? ['sw_last'] : limits).some((name) =>
    isNoKey(name, opcodes, region),
  );
  return orNothing(made, isDropped, parts);
};

/** They win over `sw_last`. */
const rangeNames = ['sw_lolast', 'sw_hilast'] as const;

/** Some key that the signal follows is among `lo` to `hi`. */
const canBe = (signal: Signal, lo: number, hi: number): boolean =>
  signal.kind === 'switch' && lo <= hi && signal.keys.some(([from, to]) => from <= hi && to >= lo);

/** The same, once for each signal and range. */
const anyOf = (tests: readonly (Test & { readonly signal: number })[]): Made => {
  const first = tests[0];
  if (first === undefined) return null;
  const distinct = tests.filter(
    (test, i) =>
      !tests
        .slice(0, i)
        .some(({ signal, lo, hi }) => signal === test.signal && lo <= test.lo && hi >= test.hi),
  );
  return {
    signal: first.signal,
    tests: distinct.map(({ signal, ...test }) =>
      signal === first.signal ? test : { ...test, signal },
    ),
  };
};

/** A key that is held, or is not. Outside the range that the region watches no key ever is. */
const heldCondition = (
  name: 'sw_down' | 'sw_up',
  opcodes: RegionOpcodes,
  region: Region,
  parts: Parts,
): Made => {
  const written = opcodes.key(name);
  if (written === null) return 'always';
  const isDown = name === 'sw_down';
  const [lo, hi] = isDown ? [1, manyKeys] : [0, 0];
  const keyOf = (shifted: boolean): number => movedSwitch(written, region, shifted)!;
  const watched = watchedOf(opcodes, region);
  const isWatched = watched === null || contains(watched, keyOf(true));
  if (!isWatched && !isDown) return 'always';
  const held = (key: number): number =>
    parts.signal({ kind: 'held', keys: [[key, key]], own: true });
  const tests = [
    { lo, hi, doubt: isWatched ? plain : engine, signal: held(keyOf(true)) },
    ...(region.control.noteOffset === 0
      ? []
      : [{ lo, hi, doubt: engine, signal: held(keyOf(false)) }]),
  ];
  return orNothing(anyOf(tests), isNoKey(name, opcodes, region), parts);
};

/** The note before this one. */
const previousCondition = (opcodes: RegionOpcodes, region: Region, parts: Parts): Made => {
  const written = opcodes.key('sw_previous');
  if (written === null) return 'always';
  const signal = parts.signal({ kind: 'previous-key' });
  const keys = region.control.noteOffset === 0 ? [true] : [true, false];
  const made = anyOf(
    keys.flatMap((shifted) => {
      const key = movedSwitch(written, region, shifted)!;
      // Below every key: not what stands for no note before.
      return key < 0 ? [] : [{ lo: key, hi: key, doubt: shifted ? plain : engine, signal }];
    }),
  );
  return orNothing(made, isNoKey('sw_previous', opcodes, region), parts);
};
