import type { Score } from '../../midi/score.ts';
import type { RoutedCopy } from '../../template/routed.ts';
import type { PrimerTrack } from '../lanes.ts';

/** A track that the base export does not have. */
export interface AddedTrack {
  readonly track: string;
  /** Id of the cue it is taken from. */
  readonly cue: string;
}

/** The tracks of a primer: those of its base in their order, and further ones behind them. */
export class PrimerTracks {
  readonly #tracks: PrimerTrack[];
  readonly #added: AddedTrack[] = [];

  /** @param base the tracks of the base export */
  constructor(base: readonly PrimerTrack[]) {
    this.#tracks = [...base];
  }

  get all(): readonly PrimerTrack[] {
    return this.#tracks;
  }

  get added(): readonly AddedTrack[] {
    return this.#added;
  }

  /**
   * The track on which events of a track of another cue go where they go there: one of its name, on
   * its port where there are several, else one that is added.
   *
   * @param cue id
   */
  trackFor({ tracks }: Score, index: number, port: number, cue: string): number {
    const { name, instrumentName, deviceName } = tracks[index]!;
    const named = this.#tracks.flatMap((one, i) => (one.name === name ? [i] : []));
    const found = named.find((i) => this.#tracks[i]!.port === port) ?? named[0];
    if (found !== undefined) return found;
    this.#added.push({ track: name ?? '', cue });
    return this.#tracks.push({ name, instrumentName, deviceName, port }) - 1;
  }

  /** A copy of another cue with its sources on tracks of the primer. */
  moved(copy: RoutedCopy, score: Score, cue: string): RoutedCopy {
    const sources = copy.sources.map((source) => ({
      ...source,
      track: this.trackFor(score, source.track, source.port, cue),
    }));
    return { ...copy, sources };
  }
}
