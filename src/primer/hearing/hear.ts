import type { Instrument } from '../../instruments/instrument.ts';
import { settledAsPlain } from '../../keep/decision.ts';
import { reachedClasses } from '../../keep/reach.ts';
import type { PlanInstrument } from '../../keep/plan.ts';
import type { FileUsage, WitnessPlace } from '../../playback/zone-usage.ts';
import { doubtSet, plain, within } from '../../terms/doubt.ts';

/** What a cue makes one copy of an instrument load. */
export interface HeardCopy {
  readonly copy: string;
  /** Zones that it starts for certain. */
  readonly plain: ReadonlySet<number>;
  /** Zones that it starts for certain or may start, each with the first note that does. */
  readonly loads: ReadonlyMap<number, WitnessPlace>;
}

/** A player can't be asked which of these it meant: what they may load counts as loaded. */
const possible = doubtSet('order', 'start-state', 'slack', 'smoothing', 'tail');

/**
 * What a cue makes an instrument load, copy by copy. Zones that start without a sound load nothing.
 *
 * @param planned what the user answered in the plan holds here too
 * @param usage of the cue, printed copies among it
 */
export const hear = (
  instrument: Instrument,
  planned: Pick<PlanInstrument, 'settle'>,
  usage: FileUsage,
): readonly HeardCopy[] => {
  const open = possible & ~settledAsPlain(planned.settle);
  const found = new Map<string, { plain: Set<number>; loads: Map<number, WitnessPlace> }>();
  for (const { copy, class: one, starts } of reachedClasses(instrument, [usage])) {
    if (copy.printed) continue;
    let own = found.get(copy.copy);
    if (own === undefined) {
      own = { plain: new Set(), loads: new Map() };
      found.set(copy.copy, own);
    }
    for (const { start, doubts } of starts) {
      if (doubts[0] === plain) own.plain.add(start.zone);
      if (!doubts.some((set) => within(set, open))) continue;
      const [place] = one.witnesses;
      if (place !== undefined && isBefore(place, own.loads.get(start.zone))) {
        own.loads.set(start.zone, place);
      }
    }
  }
  return [...found].map(([copy, own]) => ({ copy, ...own }));
};

const isBefore = ([, tick]: WitnessPlace, other: WitnessPlace | undefined): boolean =>
  other === undefined || tick < other[1];
