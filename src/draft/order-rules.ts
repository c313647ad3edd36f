import { compilePattern } from '../template/patterns/compile-pattern.ts';
import { matchPrepared, prepareName } from '../template/patterns/match-pattern.ts';
import type { Pattern } from '../template/patterns/pattern.ts';
import type { DraftRule } from './draft-rule.ts';
import { spelledRules } from './make-rules.ts';

/** How often a name may be held against a pattern with a wildcard; beyond, names are spelled out. */
const mostTries = 4_000_000;

const wildPatterns = ({ patterns }: DraftRule): readonly Pattern[] =>
  patterns.flatMap((text) => {
    const pattern = compilePattern(text);
    return 'problem' in pattern || pattern.captures.length === 0 ? [] : [pattern];
  });

/** For each rule those whose tracks it would take as well, if it stood first. */
const takenFrom = (rules: readonly DraftRule[]): readonly ReadonlySet<number>[] => {
  const names = rules.flatMap(({ tracks }, rule) =>
    tracks.map(({ name }) => ({ rule, name: prepareName(name) })),
  );
  return rules.map((rule, at) => {
    const patterns = wildPatterns(rule);
    const others = new Set<number>();
    if (patterns.length === 0) return others;
    for (const { rule: other, name } of names) {
      if (other === at || others.has(other)) continue;
      if (patterns.some((pattern) => matchPrepared(pattern, name) !== null)) others.add(other);
    }
    return others;
  });
};

/** Of spelled names only the very long ones have a wildcard, at the end: the longer start goes first. */
const withoutTrying = (rules: readonly DraftRule[]): readonly DraftRule[] => {
  const length = (rule: DraftRule): number =>
    Math.max(0, ...wildPatterns(rule).map(({ pieces }) => pieces[0]?.length ?? 0));
  return rules
    .map((rule) => ({ rule, length: length(rule) }))
    .sort((a, b) => (a.length === 0 || b.length === 0 ? a.length - b.length : b.length - a.length))
    .map(({ rule }) => rule);
};

const spelledOut = (rule: DraftRule): readonly DraftRule[] =>
  rule.articulation === null ? [rule] : spelledRules(rule.group, rule.tracks);

/**
 * Rules in an order in which the first that matches a track is the one made for it: as they come, but
 * for those with a wildcard that others must precede. Where two would have to precede each other, the
 * names of one are spelled out.
 */
export const orderRules = (rules: readonly DraftRule[]): readonly DraftRule[] => {
  const tracks = rules.reduce((sum, rule) => sum + rule.tracks.length, 0);
  const wild = rules.reduce((sum, rule) => sum + wildPatterns(rule).length, 0);
  if (tracks * wild > mostTries) return withoutTrying(rules.flatMap(spelledOut));
  const before = takenFrom(rules);
  const ordered: DraftRule[] = [];
  const state = new Map<number, 'visiting' | 'done'>();
  const visit = (at: number): void => {
    if (state.get(at) === 'done') return;
    state.set(at, 'visiting');
    let circular = false;
    for (const other of before[at]!) {
      if (state.get(other) === 'visiting') circular = true;
      else visit(other);
    }
    state.set(at, 'done');
    ordered.push(...(circular ? spelledOut(rules[at]!) : [rules[at]!]));
  };
  rules.forEach((_, at) => {
    visit(at);
  });
  return ordered;
};
