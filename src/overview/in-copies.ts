import { withArticulation } from '../instruments/fixed-articulation.ts';
import type { Instrument } from '../instruments/instrument.ts';
import type { Program } from '../instruments/program.ts';
import { keptZones } from '../keep/check/kept-zones.ts';
import type { ZonedKeyMapRow } from '../keep/key-map/make-key-map.ts';
import type { PlanInstrument } from '../keep/plan.ts';
import type { ZoneMask } from '../memory/zone-mask.ts';
import type { FileUsage } from '../playback/zone-usage.ts';
import { inAllCopies } from './in-all-copies.ts';
import type { OverviewArticulation } from './overview-instrument.ts';
import type { PlayableContext } from './playable-rows.ts';
import { playableOf } from './playable.ts';

/** A copy with zones of its own, and what it can be asked for. */
interface AskedCopy {
  /** Index among the copies of its instrument. */
  readonly copy: number;
  /** The instrument's, or that of the articulation that its route holds it to. */
  readonly program: Program;
  readonly kept: ZoneMask;
  readonly loaded: ZoneMask;
}

/**
 * Copies of an instrument that their route holds to an articulation, by name; null: to none.
 *
 * @param files usage of the cues of the plan
 */
export const heldCopies = (
  instrument: string,
  files: readonly FileUsage[],
): ReadonlyMap<string, string | null> =>
  new Map(
    files.flatMap(({ copies }) =>
      copies.flatMap((one): readonly (readonly [string, string | null])[] =>
        one.instrument === instrument ? [[one.copy, one.articulation]] : [],
      ),
    ),
  );

/** The copies of an instrument that have zones of their own; null where all load the same. */
export const copiesOf = (
  instrument: Instrument,
  own: PlanInstrument,
  held: ReadonlyMap<string, string | null>,
): readonly AskedCopy[] | null => {
  if (own.shares !== 'copy') return null;
  const zones = keptZones(instrument, own);
  return own.copies.map(({ name }, copy) => {
    const to = held.get(name) ?? null;
    const index = instrument.articulations.findIndex((one) => one.name === to);
    const program = index < 0 ? instrument.program : withArticulation(instrument, index);
    return { copy, program, kept: zones.kept(name), loaded: zones.loaded(name) };
  });
};

/** A copy that is held to something else has no start of an articulation that can happen. */
const isAskedOf = (rows: readonly ZonedKeyMapRow[], { starts }: Program): boolean =>
  rows.some(({ members }) =>
    members.some((member) =>
      member.starts.some((start) => {
        const [lo, hi] = starts[start]!.keys;
        return lo <= hi;
      }),
    ),
  );

/**
 * What can still be written for an articulation, and by copy where copies differ in it. A copy that a
 * route holds to another articulation does not count: this one is not asked of it.
 *
 * @param copies those that have zones of their own; null: all load the same
 */
export const playableInCopies = (
  rows: readonly ZonedKeyMapRow[],
  context: PlayableContext,
  copies: readonly AskedCopy[] | null,
): Pick<OverviewArticulation, 'playable' | 'copies'> => {
  if (copies === null) return { playable: playableOf(rows, context), copies: [] };
  const asked = copies.filter(({ program }) => isAskedOf(rows, program));
  const each = asked.map(({ copy, program, kept, loaded }) => ({
    copy,
    playable: playableOf(rows, { ...context, program, copy: { kept, loaded } }),
  }));
  const [first] = each;
  if (first === undefined) {
    // What no copy is asked for may stay in one, for a pin: no track reaches it there.
    const none = new Uint8Array(context.program.zones);
    const playable = playableOf(rows, { ...context, copy: { kept: none, loaded: none } });
    return { playable, copies: [] };
  }
  const text = JSON.stringify(first.playable);
  const isAlike = each.every(({ playable }) => JSON.stringify(playable) === text);
  return {
    playable: isAlike ? first.playable : inAllCopies(each.map(({ playable }) => playable)),
    copies: isAlike && each.length === copies.length ? [] : each,
  };
};
