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
 * @param isPartial only some cues of the reel were routed: what they leave unused the others may use
 */
export const routingFindings = (
  template: Rules,
  files: readonly Routing[],
  isPartial: boolean,
): readonly Finding[] => {
  const routing = joinRouting(files);
  return [
    ...(isPartial ? [] : [...idleJoins(template, routing), ...idleRules(template, routing)]),
    ...routing.unmapped.map((one) => finding('warning', 'part-unmapped', null, { ...one })),
    ...routing.unresolved.map(({ rule, ...args }) => {
      const { file, at } = template.routes[rule]!;
      return finding('warning', 'route-articulation', file, args, at);
    }),
  ];
};

/** Members of a join that no track has the name of, while others of it do: most likely a slip. */
const idleJoins = ({ routes }: Rules, { names, deciding }: Routing): readonly Finding[] => {
  const used = new Set(deciding);
  return routes.flatMap(({ join, tracks, rule, file, at }, index) => {
    if (join === null || !used.has(index)) return [];
    return tracks
      .filter((pattern) => !names.some((name) => matchPattern(pattern, name) !== null))
      .map(({ text }) => finding('warning', 'join-idle', file, { rule, pattern: text }, at));
  });
};

const idleRules = (
  { path, routes }: Rules,
  { deciding, beaten, possible }: Routing,
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
      findings.push(finding('warning', 'route-shadowed', file, args, at));
    } else if (file === path) {
      const severity = route.outcome.kind === 'ignore' ? 'note' : 'warning';
      findings.push(finding(severity, 'route-unused', file, { rule }, at));
    } else {
      const rows = idleRows.get(file);
      if (rows === undefined) idleRows.set(file, [route]);
      else rows.push(route);
    }
  });
  return [...findings, ...[...idleRows].map(([file, rows]) => idleTable(routes, file, rows))];
};

const idleTable = (routes: readonly Route[], file: string, rows: readonly Route[]): Finding => {
  const of = routes.filter((route) => route.file === file).length;
  const first = rows.slice(0, mostExamples).map(({ rule }) => rule);
  const severity = rows.length === of ? 'warning' : 'note';
  return finding(severity, 'rows-unused', file, { rows: rows.length, of, first }, rows[0]!.at);
};
