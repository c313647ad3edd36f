import { fold } from '../../notation/fold.ts';
import { byCodePoint } from '../../terms/code-point-order.ts';
import { fillCaptures, mentionedCaptures } from '../patterns/fill-captures.ts';
import type { FoldedText } from '../patterns/folded-name.ts';
import { matchPrepared, prepareName } from '../patterns/match-pattern.ts';
import type { Route } from '../route.ts';

/** A rule whose track pattern matches a name. */
export interface Match {
  /** Index into the routes. */
  readonly index: number;
  readonly route: Route;
  /** The articulation that the rule names, captures filled in; null: none. */
  readonly articulation: string | null;
  readonly join: Join | null;
}

/** Which copy joined tracks drive. */
export interface Join {
  /** Equal for rules with the same text and tracks with the same captures. */
  readonly key: string;
  /** The text with the captures filled in; captures that it does not mention follow it. */
  readonly name: string;
}

/** The rules for one name, in order, whatever the cue, port and channel. */
export interface NameMatches {
  readonly matches: readonly Match[];
  /** Instruments that rules of several ports or channels send this track to, each to a copy. */
  readonly split: ReadonlySet<string>;
}

const joinOf = (text: string, captures: ReadonlyMap<string, string>): Join => {
  const mentioned = mentionedCaptures(text);
  const isMentioned = (name: string): boolean => 'problem' in mentioned || mentioned.includes(name);
  const sorted = [...captures].sort(([a], [b]) => byCodePoint(a, b));
  const others = sorted.flatMap(([name, value]) =>
    isMentioned(name) || value === '' ? [] : [value],
  );
  const filled = fillCaptures(text, captures);
  return {
    key: JSON.stringify([fold(text), sorted.map(([name, value]) => [name, fold(value)])]),
    name: others.length === 0 ? filled : `${filled} (${others.join(', ')})`,
  };
};

const matchRoute = (route: Route, index: number, name: FoldedText): Match | null => {
  for (const pattern of route.tracks) {
    const captures = matchPrepared(pattern, name);
    if (captures === null) continue;
    const { outcome, join } = route;
    const articulation = outcome.kind === 'play' ? outcome.articulation : null;
    return {
      index,
      route,
      articulation: articulation === null ? null : fillCaptures(articulation, captures),
      join: join === null ? null : joinOf(join, captures),
    };
  }
  return null;
};

const splitAmong = (matches: readonly Match[]): ReadonlySet<string> => {
  const selectors = new Map<string, string>();
  const split = new Set<string>();
  for (const { route } of matches) {
    if (route.outcome.kind === 'ignore' || route.join !== null) continue;
    const selector = JSON.stringify([route.port, route.channel]);
    for (const instrument of route.outcome.instruments) {
      const before = selectors.get(instrument);
      if (before === undefined) selectors.set(instrument, selector);
      else if (before !== selector) split.add(instrument);
    }
  }
  return split;
};

/** What is remembered for a list of rules. */
interface Memory {
  readonly byName: Map<string, NameMatches>;
  matches: number;
}

/** Cues of a reel share most of their track names; a reel has no more of them than this. */
const mostNames = 20_000;
/** Of all names together, lest rules that match everything fill the memory. */
const mostMatches = 1_000_000;
const memories = new WeakMap<readonly Route[], Memory>();

const matchAll = (routes: readonly Route[], name: string): NameMatches => {
  const prepared = prepareName(name);
  const matches: Match[] = [];
  routes.forEach((route, index) => {
    const match = matchRoute(route, index, prepared);
    if (match !== null) matches.push(match);
  });
  return { matches, split: splitAmong(matches) };
};

/** The rules whose track pattern matches a name; a track without a name has the empty one. */
export const matchesOf = (routes: readonly Route[], name: string): NameMatches => {
  let memory = memories.get(routes);
  if (memory === undefined) memories.set(routes, (memory = { byName: new Map(), matches: 0 }));
  const known = memory.byName.get(name);
  if (known !== undefined) return known;
  const found = matchAll(routes, name);
  memory.matches += found.matches.length;
  if (memory.byName.size >= mostNames || memory.matches > mostMatches) {
    memory.byName.clear();
    memory.matches = found.matches.length;
  }
  memory.byName.set(name, found);
  return found;
};

/** For each rule whether it counts in a cue. */
export const rulesOfCue = (routes: readonly Route[], cue: string): readonly boolean[] => {
  const prepared = prepareName(cue);
  return routes.map((route) => route.cue === null || matchPrepared(route.cue, prepared) !== null);
};
