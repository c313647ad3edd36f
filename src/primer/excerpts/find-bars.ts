import type { Instrument } from '../../instruments/instrument.ts';
import { reachedClasses } from '../../keep/reach.ts';
import { barOf } from '../../keep/witness.ts';
import type { FileUsage } from '../../playback/zone-usage.ts';
import { plain } from '../../terms/doubt.ts';
import type { Cover } from './cover.ts';
import { wantedKey, type WantedZone } from './wanted-zone.ts';

/** A bar of a cue in which some copies start what is wanted. */
export interface Bar {
  /** The file of the cue: its place in the usage. */
  readonly file: number;
  /** From 1. */
  readonly bar: number;
  /** The copies that start it, by {@link copyKey}. */
  readonly copies: ReadonlySet<string>;
}

/** Names a copy of an instrument. */
export const copyKey = (instrument: string, copy: string): string =>
  JSON.stringify([instrument, copy]);

/**
 * The bars of the cues in which wanted zones are started for certain, in reel order: each with the
 * zones it starts.
 *
 * @param files usage with every place of every class
 */
export const findBars = (
  wanted: readonly WantedZone[],
  instruments: ReadonlyMap<string, Instrument>,
  files: readonly FileUsage[],
): readonly Cover<Bar>[] => {
  const keys = new Set(wanted.map(wantedKey));
  const places = new Map(files.map((file, i) => [file, i]));
  const bars = new Map<string, { bar: Bar; copies: Set<string>; covers: Set<string> }>();
  for (const id of new Set(wanted.map(({ instrument }) => instrument))) {
    for (const { file, copy, class: one, starts } of reachedClasses(instruments.get(id)!, files)) {
      if (copy.printed) continue;
      const found = new Set(
        starts
          .filter(({ doubts }) => doubts[0] === plain)
          .flatMap(({ start: { zone } }) =>
            [null, copy.copy].map((name) => wantedKey({ instrument: id, copy: name, zone })),
          )
          .filter((key) => keys.has(key)),
      );
      if (found.size === 0) continue;
      for (const place of one.witnesses) {
        const [index, number] = [places.get(file)!, barOf(file, place)];
        const at = `${String(index)} ${String(number)}`;
        let bar = bars.get(at);
        if (bar === undefined) {
          const copies = new Set<string>();
          bar = { bar: { file: index, bar: number, copies }, copies, covers: new Set() };
          bars.set(at, bar);
        }
        bar.copies.add(copyKey(id, copy.copy));
        for (const key of found) bar.covers.add(key);
      }
    }
  }
  return [...bars.values()]
    .map(({ bar, covers }) => ({ taken: bar, covers }))
    .sort((a, b) => a.taken.file - b.taken.file || a.taken.bar - b.taken.bar);
};
