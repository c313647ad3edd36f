import type { FileUsage } from '../../playback/zone-usage.ts';
import { doubtSet } from '../../terms/doubt.ts';
import { settledAsPlain, type Subject } from '../decision.ts';
import { holdsWithout } from '../doubt-sets.ts';
import { reachedClasses } from '../reach.ts';
import { FewNotesCount, type FewNotes } from './few-notes.ts';
import { lettableUnits } from './lettable-units.ts';
import type { Holder } from './taken-away.ts';

/** Something that a player can let go, and that few notes reach. */
export interface RareCandidate extends FewNotes {
  readonly holder: Holder;
  /** All of its starts, as indices. */
  readonly starts: ReadonlySet<number>;
  /** Indices of the articulations in which it is reached. */
  readonly articulations: readonly number[];
}

/** A unit in one holder, while its notes are counted. */
interface Counted {
  readonly count: FewNotesCount;
  readonly articulations: Set<number>;
}

/**
 * What few notes reach of an instrument, by the plain reading or through open doubts. Of an
 * instrument that a stretch which could not be read may have played there is nothing: nobody knows how
 * many notes those are.
 *
 * @param files in reel order, without printed tracks
 * @param limit this many notes are not few
 */
export const rareUnits = (
  { instrument, player, tally, settle }: Subject,
  files: readonly FileUsage[],
  limit: number,
): readonly RareCandidate[] => {
  const excluded = settledAsPlain(settle);
  const isTainted = files.some(({ tainted }) => tainted.includes(instrument.id));
  if (isTainted && (excluded & doubtSet('damage')) === 0) return [];
  const units = lettableUnits(instrument, player.unloads);
  const byHolder = new Map<Holder, Map<number, Counted>>();
  const places = new Map(tally.copies.map(({ name }, i) => [name, i]));
  const reel = new Map(files.map((file, i) => [file, i]));
  for (const { file, copy, class: one, starts } of reachedClasses(instrument, files)) {
    const holder = player.shares === 'machine' ? null : places.get(copy.copy)!;
    let counted = byHolder.get(holder);
    if (counted === undefined) byHolder.set(holder, (counted = new Map<number, Counted>()));
    const seen = new Set<number>();
    for (const { index, start, doubts } of starts) {
      if (!holdsWithout(doubts, excluded)) continue;
      const unit = units[index]!;
      let own = counted.get(unit);
      if (own === undefined) {
        own = { count: new FewNotesCount(limit), articulations: new Set<number>() };
        counted.set(unit, own);
      }
      own.articulations.add(start.articulation);
      if (!seen.has(unit)) own.count.add(reel.get(file)!, file, one);
      seen.add(unit);
    }
  }
  const startsOf = new Map<number, Set<number>>();
  units.forEach((unit, start) => {
    const own = startsOf.get(unit);
    if (own === undefined) startsOf.set(unit, new Set([start]));
    else own.add(start);
  });
  return [...byHolder].flatMap(([holder, counted]) =>
    [...counted].flatMap(([unit, { count, articulations }]): readonly RareCandidate[] => {
      const few = count.few();
      const starts = startsOf.get(unit)!;
      if (few === null) return [];
      const sorted = [...articulations].sort((a, b) => a - b);
      return [{ ...few, holder, starts, articulations: sorted }];
    }),
  );
};
