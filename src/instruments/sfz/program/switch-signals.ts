import { toRanges, type Range } from '../../../terms/range.ts';
import type { Signal } from '../../program.ts';
import { keyOf } from '../text/numbers.ts';
import type { DefaultSwitch, Region } from '../structure/regions.ts';
import type { RegionOpcodes } from './region-opcodes.ts';

/** A keyswitch as a region names it. */
export interface SwitchOpcodes {
  /** Keys that switch it on (`sw_last`, or `sw_lolast` to `sw_hilast`, which win). */
  readonly keys: Range;
  /** Where switches are watched (`sw_lokey` to `sw_hikey`); null where it does not say. */
  readonly watched: Range | null;
}

/** Moves a switch key by the offsets of `<control>`; -1 and null stay. */
export const movedSwitch = (
  key: number | null,
  { control: { noteOffset, switchOffset } }: Pick<Region, 'control'>,
  shifted: boolean,
): number | null =>
  key === null || key < 0 ? key : key + switchOffset + (shifted ? noteOffset : 0);

/**
 * The keyswitch of a region; null without one.
 *
 * @param shifted moved by the offsets of notes too, as the documentation has it
 */
export const switchOf = (
  opcodes: RegionOpcodes,
  region: Pick<Region, 'control'>,
  shifted = true,
): SwitchOpcodes | null => {
  const key = (name: string): number | null => movedSwitch(opcodes.key(name), region, shifted);
  const [last, lo, hi] = [key('sw_last'), key('sw_lolast'), key('sw_hilast')];
  if (last === null && lo === null && hi === null) return null;
  const keys: Range = lo === null && hi === null ? [last ?? 0, last ?? 0] : [lo ?? 0, hi ?? 127];
  return { keys, watched: watchedOf(opcodes, region, shifted) };
};

/** The explicit switch range of a region; null without one. */
export const watchedOf = (
  opcodes: RegionOpcodes,
  region: Pick<Region, 'control'>,
  shifted = true,
): Range | null => {
  const lo = movedSwitch(opcodes.key('sw_lokey'), region, shifted);
  const hi = movedSwitch(opcodes.key('sw_hikey'), region, shifted);
  return lo === null && hi === null ? null : [lo ?? 0, hi ?? 127];
};

/**
 * True when what a region writes last for a switch is no key: outside 0-127 once it has been moved, or
 * text. Engines may take it as if it were not there.
 */
export const isNoKey = (
  name: string,
  opcodes: RegionOpcodes,
  region: Pick<Region, 'control'>,
): boolean => {
  const text = opcodes.text(name);
  if (text === null) return false;
  const key = movedSwitch(keyOf(text), region, true);
  return key === null || key < 0 || key > 127;
};

/** All keyswitches of an instrument, and the signals that stand for its readings. */
export class SwitchSignals {
  readonly #switches: readonly SwitchOpcodes[];
  readonly #defaults: readonly number[];

  /**
   * @param switches of all regions that have one
   * @param defaults every `sw_default`, in reading order
   * @param shifted moved by the offsets of notes too
   */
  constructor(
    switches: readonly SwitchOpcodes[],
    defaults: readonly DefaultSwitch[],
    shifted = true,
  ) {
    // Thousands of regions have but a few switches between them.
    this.#switches = [
      ...new Map(switches.map((one) => [JSON.stringify([one.keys, one.watched]), one])).values(),
    ];
    this.#defaults = defaults.map(({ key, unshifted }) => (shifted ? key : unshifted));
  }

  /** Every key that switches. */
  get keys(): readonly number[] {
    return this.#named(this.#switches);
  }

  /**
   * The plain reading: the last key pressed where the region watches; without a range, the last of
   * the keys that regions without a range name.
   */
  plain({ watched }: SwitchOpcodes): Signal {
    if (watched !== null) return this.#signal([clamped(watched)], true);
    return this.#signal(
      toRanges(this.#named(this.#switches.filter((one) => one.watched === null))),
      true,
    );
  }

  /** Keys that no region names leave the switch as it is; null where that is no other reading. */
  namedOnly({ watched }: SwitchOpcodes): Signal | null {
    if (watched === null) return null;
    const alike = this.#switches.filter(
      (one) => one.watched?.[0] === watched[0] && one.watched[1] === watched[1],
    );
    const [lo, hi] = watched;
    const keys = this.#named(alike).filter((key) => key >= lo && key <= hi);
    return this.#signal(toRanges(keys), true);
  }

  /** One switch for the whole instrument, wherever it is watched. */
  global(): Signal {
    return this.#signal(toRanges(this.keys), false);
  }

  #named(switches: readonly SwitchOpcodes[]): readonly number[] {
    const keys = new Set<number>();
    for (const { keys: range } of switches) {
      const [lo, hi] = clamped(range);
      for (let key = lo; key <= hi; key++) keys.add(key);
    }
    return [...keys].sort((a, b) => a - b);
  }

  /** @param searches take the last default among its keys; else the last of the file, if it is one */
  #signal(keys: readonly Range[], searches: boolean): Signal {
    const isKey = (key: number): boolean => keys.some(([lo, hi]) => key >= lo && key <= hi);
    const last = searches ? this.#defaults.findLast(isKey) : this.#defaults.at(-1);
    return {
      kind: 'switch',
      keys,
      initial: last !== undefined && isKey(last) ? last : null,
    };
  }
}

const clamped = ([lo, hi]: Range): Range => [Math.max(lo, 0), Math.min(hi, 127)];
