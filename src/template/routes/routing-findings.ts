import { finding, type Finding } from '../../terms/finding.ts';
import { matchPattern } from '../patterns/match-pattern.ts';
import type { Route } from '../route.ts';
import type { Template } from '../template.ts';
import { joinRouting, type Routing } from './routing.ts';

/** Rules of a table that are named in a finding about several. */
const mostExamples = 3;

type Rules = Pick<Template, 'path' | 'routes'>;

/**
 * What to tell when all cue files are routed: rules that were never used in the order of the rules,
 * then parts without a rule by cue, then articulations that were not found.
 *
 * @param files the routing of each file, in reel order
 * @param isPartial only some cues of the reel were routed
 */
export const routingFindings = (
  template: Rules,
  files: readonly Routing[],
  isPartial: boolean,
): readonly Finding[] => {
  const routing = joinRouting(files);
  return [
    ...idleJoins(template, routing, isPartial),
    ...idleRules(template, routing, isPartial),
    ...routing.unmapped.map((one) => finding('warning', 'part-unmapped', null, { ...one })),
    ...routing.unresolved.map(({ rule, ...args }) => {
      const { file, at } = template.routes[rule]!;
      return finding('warning', 'route-articulation', file, args, at);
    }),
  ];
};

/** Members of a join that no track has the name of, while others of it do: most likely a slip. */
const idleJoins = (
  { routes }: Rules,
  { names, deciding }: Routing,
  isPartial: boolean,
): readonly Finding[] => {
  const severity = isPartial ? 'note' : 'warning';
  const used = new Set(deciding);
  return routes.flatMap(({ join, tracks, rule, file, at }, index) => {
    if (join === null || !used.has(index)) return [];
    return tracks
      .filter((pattern) => !names.some((name) => matchPattern(pattern, name) !== null))
      .map(({ text }) => finding(severity, 'join-idle', file, { rule, pattern: text }, at));
  });
};

const idleRules = (
  { path, routes }: Rules,
  { deciding, beaten, possible }: Routing,
  isPartial: boolean,
): readonly Finding[] => {
  // Without a template nobody wrote the rules.
  if (path === null) return [];
  const used = new Set([...deciding, ...possible]);
  const beatenBy = new Map(beaten.map(({ rule, by }) => [rule, by]));
  const findings: Finding[] = [];
  /** By table. A template lists all its tracks and a score plays some of them: that is no mistake. */
  const idleRows = new Map<string, Route[]>();
  routes.forEach((route, index) => {
    const { rule, file, at } = route;
    if (used.has(index)) return;
    const first = routes[beatenBy.get(index) ?? -1];
    if (first !== undefined) {
      const args = { rule, by: first.rule, in: first.file, line: first.at.line ?? 1 };
      // A track that only some cue has may be what this rule is for.
      findings.push(finding(isPartial ? 'note' : 'warning', 'route-shadowed', file, args, at));
    } else if (file === path) {
      const isNote = isPartial || route.outcome.kind === 'ignore';
      findings.push(finding(isNote ? 'note' : 'warning', 'route-unused', file, { rule }, at));
    } else {
      const rows = idleRows.get(file);
      if (rows === undefined) idleRows.set(file, [route]);
      else rows.push(route);
    }
  });
  return [
    ...findings,
    ...[...idleRows].map(([file, rows]) => idleTable(routes, file, rows, isPartial)),
  ];
};

const idleTable = (
  routes: readonly Route[],
  file: string,
  rows: readonly Route[],
  isPartial: boolean,
): Finding => {
  const of = routes.filter((route) => route.file === file).length;
  const first = rows.slice(0, mostExamples).map(({ rule }) => rule);
  const severity = rows.length === of && !isPartial ? 'warning' : 'note';
  return finding(severity, 'rows-unused', file, { rows: rows.length, of, first }, rows[0]!.at);
};
