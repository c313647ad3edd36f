import type { Instrument } from '../../instruments/instrument.ts';
import { programFor } from '../../playback/play-cue.ts';
import type { CopyZone } from '../hearing/compare.ts';

/** A copy that could start zones. */
export interface Candidate {
  readonly copy: string;
  readonly articulation: string | null;
}

/**
 * Gives each zone to a copy. Zones of one copy are its own. Zones that all copies share go to the first
 * copy whose program starts them at all and that has not tried yet.
 *
 * @param zones what has to be started
 * @param candidates copies of the instrument, in order
 * @param tried by `COPY ZONE` in JSON: pairs that did not work
 * @returns by copy, indices of its zones, and what no copy may start
 */
export const allot = (
  instrument: Instrument,
  zones: readonly CopyZone[],
  candidates: readonly Candidate[],
  tried: ReadonlySet<string> = new Set(),
): {
  readonly byCopy: ReadonlyMap<string, readonly number[]>;
  readonly left: readonly CopyZone[];
} => {
  const able = candidates.map(({ copy, articulation }) => {
    const { starts } = programFor(instrument, articulation);
    const started = new Set(
      starts.filter(({ keys: [low, high] }) => low <= high).map(({ zone }) => zone),
    );
    return { copy, started };
  });
  const byCopy = new Map<string, number[]>();
  const left: CopyZone[] = [];
  for (const one of zones) {
    const to = able.find(
      ({ copy, started }) =>
        (one.copy ?? copy) === copy &&
        (one.copy !== null || started.has(one.zone)) &&
        !tried.has(attempt(copy, one.zone)),
    );
    if (to === undefined) {
      left.push(one);
      continue;
    }
    const own = byCopy.get(to.copy);
    if (own === undefined) byCopy.set(to.copy, [one.zone]);
    else own.push(one.zone);
  }
  return { byCopy, left };
};

/** Names a copy's attempt at a zone. */
export const attempt = (copy: string, zone: number): string => JSON.stringify([copy, zone]);
