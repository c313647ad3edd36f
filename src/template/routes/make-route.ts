import { finding, type Place } from '../../terms/finding.ts';
import { compilePattern } from '../patterns/compile-pattern.ts';
import type { Pattern } from '../patterns/pattern.ts';
import { unchanged, type Outcome, type Route, type Transform } from '../route.ts';
import { wrongCaptures, wrongJoin, wrongNumber, wrongOutcome } from './route-checks.ts';
import type { Refuse, RouteFields, RouteProblem } from './route-fields.ts';
import { ruleText } from './rule-text.ts';

export type { RouteFields, RouteProblem } from './route-fields.ts';

const compileAll = (
  field: 'tracks' | 'join' | 'cue',
  texts: readonly string[],
  refuse: Refuse,
): readonly Pattern[] | RouteProblem => {
  const patterns: Pattern[] = [];
  for (const text of texts) {
    const pattern = compilePattern(text);
    if ('problem' in pattern) {
      return refuse(field, 'route-pattern', { field, pattern: text, ...pattern });
    }
    patterns.push(pattern);
  }
  return patterns;
};

/** The patterns of the tracks, from whichever of the two fields has them. */
const compileTracks = (
  { tracks, join }: RouteFields,
  refuse: Refuse,
): readonly Pattern[] | RouteProblem => {
  if (tracks !== null && join !== null) return refuse('join', 'route-tracks-and-join', {});
  if (join !== null) {
    const patterns = compileAll('join', join, refuse);
    return 'problem' in patterns ? patterns : (wrongJoin(patterns, refuse) ?? patterns);
  }
  if (tracks === null || tracks.length === 0) return refuse('tracks', 'route-without-tracks', {});
  return compileAll('tracks', tracks, refuse);
};

const transformOf = ({ transpose, velocity, controllers }: RouteFields): Transform =>
  transpose === 0 && velocity === 1 && controllers.size === 0
    ? unchanged
    : { transpose, velocity, controllers };

const outcomeOf = (fields: RouteFields): Outcome =>
  fields.ignore
    ? { kind: 'ignore' }
    : {
        kind: 'play',
        instruments: fields.instruments,
        articulation: fields.articulation,
        transform: transformOf(fields),
        printed: fields.printed,
      };

const filledOrNull = (text: string | null): string | null =>
  text === null || text.trim() === '' ? null : text.trim();

/**
 * Makes a rule out of its fields. Their ranges are checked here for every form in which a rule may
 * be written; whether the instruments exist is not.
 *
 * @param at where the rule stands in `file`
 * @returns the rule, or the first thing that is wrong with it: `route-pattern`,
 *   `route-without-tracks`, `route-tracks-and-join`, `route-join-one`, `route-join-captures`,
 *   `route-capture`, `route-without-outcome`, `route-ignore-and`, `route-instrument-twice`,
 *   `route-number`
 */
export const makeRoute = (written: RouteFields, file: string, at: Place): Route | RouteProblem => {
  const fields = {
    ...written,
    articulation: filledOrNull(written.articulation),
    joinWord: filledOrNull(written.joinWord),
  };
  const rule = ruleText(fields);
  const refuse: Refuse = (field, code, args) => ({
    problem: finding('error', code, file, args, at),
    field,
  });
  const tracks = compileTracks(fields, refuse);
  if ('problem' in tracks) return tracks;
  const cues = compileAll('cue', fields.cue === null ? [] : [fields.cue], refuse);
  if ('problem' in cues) return cues;
  const wrong =
    wrongNumber(fields, refuse) ??
    wrongOutcome(fields, rule, refuse) ??
    wrongCaptures('articulation', fields.articulation, tracks, refuse) ??
    wrongCaptures('joinWord', fields.joinWord, tracks, refuse);
  if (wrong !== null) return wrong;
  return {
    tracks,
    cue: cues[0] ?? null,
    port: fields.port === null ? null : fields.port - 1,
    channel: fields.channel === null ? null : fields.channel - 1,
    join: fields.join === null ? fields.joinWord : fields.join.join(' + '),
    outcome: outcomeOf(fields),
    rule,
    file,
    at,
  };
};
