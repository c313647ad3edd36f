import type { FoundArticulation } from '../../instruments/find-articulation.ts';
import type { Finding } from '../../terms/finding.ts';
import type { Template } from '../template.ts';
import type { Match } from './matching-rules.ts';
import type { Routing } from './routing.ts';
import { routingFindings } from './routing-findings.ts';

interface Unmapped {
  readonly tracks: Set<string | null>;
  notes: number;
}

interface Unresolved {
  readonly rule: number;
  readonly instrument: string;
  readonly articulation: string;
  readonly found: FoundArticulation;
  readonly tracks: Set<string>;
}

/** What routing cue files shows about the rules themselves. */
export class RouteLog {
  /** Rules that decided about a part, and rules that would have: index -> the rule that came first. */
  readonly #deciding = new Set<number>();
  readonly #beaten = new Map<number, number>();
  /** Rules that may have decided about what could not be read. */
  readonly #possible = new Set<number>();
  /** Names of all tracks that were routed. */
  readonly #names = new Set<string>();
  readonly #unmapped = new Map<string, Unmapped>();
  readonly #unresolved = new Map<string, Unresolved>();

  /** A track with parts. */
  seen(track: string | null): void {
    this.#names.add(track ?? '');
  }

  /** @param matches the rules that match a part, in order; the first decides */
  decided([first, ...others]: readonly Match[]): void {
    if (first === undefined) return;
    this.#deciding.add(first.index);
    for (const { index } of others) {
      if (!this.#beaten.has(index)) this.#beaten.set(index, first.index);
    }
  }

  /** A part of a damaged track may have been behind the damage. */
  mayDecide({ index }: Match): void {
    this.#possible.add(index);
  }

  /** @param notes of one part that no rule takes */
  unmapped(cue: string, track: string | null, notes: number): void {
    let unmapped = this.#unmapped.get(cue);
    if (unmapped === undefined) {
      this.#unmapped.set(cue, (unmapped = { tracks: new Set(), notes: 0 }));
    }
    unmapped.tracks.add(track);
    unmapped.notes += notes;
  }

  /** The articulation that a rule names for a track is not one of the instrument. */
  unresolved(
    { index }: Match,
    instrument: string,
    articulation: string,
    found: FoundArticulation,
    track: string,
  ): void {
    const key = JSON.stringify([index, instrument, articulation]);
    let unresolved = this.#unresolved.get(key);
    if (unresolved === undefined) {
      unresolved = { rule: index, instrument, articulation, found, tracks: new Set() };
      this.#unresolved.set(key, unresolved);
    }
    unresolved.tracks.add(track);
  }

  /** All that was seen, as plain data. */
  routing(): Routing {
    return {
      names: [...this.#names],
      deciding: [...this.#deciding],
      beaten: [...this.#beaten].map(([rule, by]) => ({ rule, by })),
      possible: [...this.#possible],
      unmapped: [...this.#unmapped].map(([cue, { tracks, notes }]) => ({
        cue,
        tracks: [...tracks],
        notes,
      })),
      unresolved: [...this.#unresolved.values()].map(({ found, tracks, ...one }) => ({
        ...one,
        tracks: [...tracks],
        matches: found.indices.length,
        near: found.near,
      })),
    };
  }

  /** {@link routingFindings} of all that was seen. */
  findings(template: Pick<Template, 'path' | 'routes'>, isPartial = false): readonly Finding[] {
    return routingFindings(template, [this.routing()], isPartial);
  }
}
