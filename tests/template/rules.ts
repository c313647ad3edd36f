import { makeRoute } from '../../src/template/routes/make-route.ts';
import type { RouteFields } from '../../src/template/routes/route-fields.ts';
import type { Route } from '../../src/template/route.ts';

/** A rule that sends every track to a piano, unless told otherwise. */
export const fieldsOf = (over: Partial<RouteFields>): RouteFields => ({
  tracks: over.join ? null : ['*'],
  join: null,
  joinWord: null,
  cue: null,
  port: null,
  channel: null,
  instruments: over.ignore === true && over.instruments === undefined ? [] : ['piano'],
  articulation: null,
  transpose: 0,
  velocity: 1,
  controllers: new Map(),
  printed: false,
  ignore: false,
  ...over,
});

/** Rules of a template: each on a line of its own, from line 1. */
export const rulesOf = (
  rules: readonly Partial<RouteFields>[],
  file = 'keepset.yaml',
): readonly Route[] =>
  rules.map((over, i) => {
    const route = makeRoute(fieldsOf(over), file, { line: i + 1, column: 1 });
    if ('problem' in route) throw new Error(JSON.stringify(route));
    return route;
  });
