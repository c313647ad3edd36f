import { plain, type DoubtSet } from '../../../terms/doubt.ts';
import type { Range } from '../../../terms/range.ts';
import type { Fade } from '../../program.ts';
import { fadeIn, fadeOut } from './crossfade.ts';
import { curveZeros } from './curve-zeros.ts';
import type { Parts } from './parts.ts';
import { engine } from './range-reading.ts';
import type { RegionOpcodes } from './region-opcodes.ts';

/** Fades that must leave something to be heard at one instant, and the doubt of reading them so. */
export interface FadeReading {
  readonly fades: readonly Fade[];
  readonly doubt: DoubtSet;
}

interface Audible {
  readonly controller: number;
  readonly range: Range;
  /** Some engine does not fade here at all. */
  readonly mayBeIgnored: boolean;
}

/**
 * The controllers that can fade a region to nothing while it sounds (the open SFZ documentation,
 * `xfin_loccN`, `amplitude_onccN`); empty when it can never be heard.
 *
 * @param curves own curves of the instrument by number
 */
export const fadeReadings = (
  opcodes: RegionOpcodes,
  curves: ReadonlyMap<number, readonly number[]>,
  parts: Parts,
): readonly FadeReading[] => {
  const all = [...crossfades(opcodes), ...amplitudes(opcodes, curves)].filter(
    ({ controller }) => controller <= 127,
  );
  const reading = (which: readonly Audible[], doubt: DoubtSet): readonly FadeReading[] => {
    const fades = joined(which, parts);
    return fades === null ? [] : [{ fades, doubt }];
  };
  const certain = all.filter(({ mayBeIgnored }) => !mayBeIgnored);
  return [...reading(all, plain), ...(certain.length < all.length ? reading(certain, engine) : [])];
};

/** One fade for each controller; null when two of them leave nothing of one. */
const joined = (all: readonly Audible[], parts: Parts): readonly Fade[] | null => {
  const ranges = new Map<number, Range>();
  for (const { controller, range } of all) {
    const [lo, hi] = ranges.get(controller) ?? [0, 127];
    ranges.set(controller, [Math.max(lo, range[0]), Math.min(hi, range[1])]);
  }
  if ([...ranges.values()].some(([lo, hi]) => lo > hi)) return null;
  return [...ranges]
    .filter(([, [lo, hi]]) => lo > 0 || hi < 127)
    .sort(([a], [b]) => a - b)
    .map(([controller, [lo, hi]]) => ({ signal: parts.controller(controller), lo, hi }));
};

const crossfades = (opcodes: RegionOpcodes): readonly Audible[] => {
  const limit = (name: string): number | null => {
    const value = opcodes.whole(name);
    return value === null ? null : Math.min(Math.max(value, 0), 127);
  };
  const made = (['xfin', 'xfout'] as const).flatMap((way) =>
    opcodes.numbered(`${way}_locc`, `${way}_hicc`).flatMap((controller): readonly Audible[] => {
      const lo = limit(`${way}_locc${String(controller)}`);
      const hi = limit(`${way}_hicc${String(controller)}`);
      // A limit that is not given would by the documentation turn the pair round.
      const range = way === 'xfin' ? fadeIn(lo ?? 0, hi ?? 0) : fadeOut(lo ?? 0, hi ?? 127);
      if (range === null) return [];
      return [{ controller, range, mayBeIgnored: way === 'xfout' && (hi ?? 127) === 0 }];
    }),
  );
  return made;
};

/** Controllers that scale the amplitude: several multiply, so that each has to leave something. */
const amplitudes = (
  opcodes: RegionOpcodes,
  curves: ReadonlyMap<number, readonly number[]>,
): readonly Audible[] => {
  // Added to what is there, none of them can take it away (documentation, "_mod").
  if (opcodes.text('amplitude_mod') === 'add') return [];
  return opcodes.numbered('amplitude_oncc').flatMap((controller): readonly Audible[] => {
    const n = String(controller);
    const depth = opcodes.number(`amplitude_oncc${n}`) ?? 0;
    if (depth === 0) return [];
    const curve = opcodes.whole(`amplitude_curvecc${n}`) ?? 0;
    return [{ controller, range: curveZeros(curve, curves), mayBeIgnored: false }];
  });
};
