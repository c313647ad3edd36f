import { finding, type Finding } from '../../terms/finding.ts';
import type { FoundArticulation } from '../../instruments/find-articulation.ts';
import { matchPattern } from '../patterns/match-pattern.ts';
import type { Match } from './matching-rules.ts';
import type { Route } from '../route.ts';
import type { Template } from '../template.ts';

interface Unmapped {
  readonly tracks: Set<string | null>;
  notes: number;
}

interface Unresolved {
  readonly route: Route;
  readonly instrument: string;
  readonly articulation: string;
  readonly found: FoundArticulation;
  readonly tracks: Set<string>;
}

/** Rules of a table that are named in a finding about several. */
const mostExamples = 3;

/** What routing all cues of a reel shows about the rules themselves. */
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
    { route, index }: Match,
    instrument: string,
    articulation: string,
    found: FoundArticulation,
    track: string,
  ): void {
    const key = JSON.stringify([index, instrument, articulation]);
    let unresolved = this.#unresolved.get(key);
    if (unresolved === undefined) {
      unresolved = { route, instrument, articulation, found, tracks: new Set() };
      this.#unresolved.set(key, unresolved);
    }
    unresolved.tracks.add(track);
  }

  /**
   * What to tell when all cues are routed: rules that were never used in the order of the rules,
   * then parts without a rule by cue, then articulations that were not found.
   *
   * @param isPartial only some cues of the reel were routed
   */
  findings(template: Pick<Template, 'path' | 'routes'>, isPartial = false): readonly Finding[] {
    return [
      ...this.#idleJoins(template),
      ...this.#idleRules(template, isPartial),
      ...[...this.#unmapped].map(([cue, { tracks, notes }]) =>
        finding('warning', 'part-unmapped', null, { cue, tracks: [...tracks], notes }),
      ),
      ...[...this.#unresolved.values()].map(({ route, instrument, articulation, found, tracks }) =>
        finding(
          'warning',
          'route-articulation',
          route.file,
          {
            instrument,
            articulation,
            tracks: [...tracks],
            matches: found.indices.length,
            near: found.near,
          },
          route.at,
        ),
      ),
    ];
  }

  /** Members of a join that no track has the name of, while others of it do: most likely a slip. */
  #idleJoins({ routes }: Pick<Template, 'routes'>): readonly Finding[] {
    return routes.flatMap(({ join, tracks, rule, file, at }, index) => {
      if (join === null || !this.#deciding.has(index)) return [];
      return tracks
        .filter((pattern) => ![...this.#names].some((name) => matchPattern(pattern, name) !== null))
        .map(({ text }) => finding('warning', 'join-idle', file, { rule, pattern: text }, at));
    });
  }

  #idleRules(
    { path, routes }: Pick<Template, 'path' | 'routes'>,
    isPartial: boolean,
  ): readonly Finding[] {
    // Without a template nobody wrote the rules.
    if (path === null) return [];
    const findings: Finding[] = [];
    /** By table. A template lists all its tracks and a score plays some of them: that is no mistake. */
    const idleRows = new Map<string, Route[]>();
    routes.forEach((route, index) => {
      const { rule, file, at } = route;
      if (this.#deciding.has(index) || this.#possible.has(index)) return;
      const first = routes[this.#beaten.get(index) ?? -1];
      if (first !== undefined) {
        const args = { rule, by: first.rule, in: first.file, line: first.at.line ?? 1 };
        findings.push(finding('warning', 'route-shadowed', file, args, at));
      } else if (file === path) {
        const isNote = isPartial || route.outcome.kind === 'ignore';
        const severity = isNote ? 'note' : 'warning';
        findings.push(finding(severity, 'route-unused', file, { rule }, at));
      } else {
        const rows = idleRows.get(file);
        if (rows === undefined) idleRows.set(file, [route]);
        else rows.push(route);
      }
    });
    for (const [file, rows] of idleRows) {
      const all = routes.filter((route) => route.file === file).length;
      const args = {
        rows: rows.length,
        of: all,
        first: rows.slice(0, mostExamples).map(({ rule }) => rule),
      };
      findings.push(
        finding(
          rows.length === all && !isPartial ? 'warning' : 'note',
          'rows-unused',
          file,
          args,
          rows[0]!.at,
        ),
      );
    }
    return findings;
  }
}
