import fc from 'fast-check';
import { unchanged } from '../../src/template/route.ts';
import { expect, test } from 'vitest';
import type { Part } from '../../src/midi/parts.ts';
import { makeRoute } from '../../src/template/routes/make-route.ts';
import { matchPattern } from '../../src/template/patterns/match-pattern.ts';
import { readTracks } from '../../src/template/routes/read-tracks.ts';
import type { RouteFields } from '../../src/template/routes/route-fields.ts';
import { RouteLog } from '../../src/template/routes/route-log.ts';
import { routeScore } from '../../src/template/routes/route-score.ts';
import type { Routed } from '../../src/template/routed.ts';
import type { Route } from '../../src/template/route.ts';
import { anyText } from './any-text.ts';
import { instruments, templateOf } from './routing.ts';
import { fieldsOf, rulesOf } from './rules.ts';
import { scoreOf, type TrackSketch } from './tracks.ts';

const names = fc.constantFrom('a', 'b', 'a b', 'A leg', 'b sus', '', 'port 1', 'track 1');
const events = fc.array(
  fc.tuple(
    fc.integer({ min: 1, max: 2 }),
    fc.integer({ min: 1, max: 3 }),
    fc.constantFrom('note' as const, 'controller' as const),
  ),
  { maxLength: 5 },
);
const tracks: fc.Arbitrary<readonly TrackSketch[]> = fc.array(
  fc.record({
    name: fc.option(names),
    events,
    timeline: fc.constantFrom(0, 0, 0, 1),
    damaged: fc.constantFrom(false, false, false, true),
  }),
  { maxLength: 5 },
);

const pattern = fc.constantFrom('a*', '*b', '*', 'a {x}', '{x}', 'b', 'a{x}');
const outcome = fc.oneof(
  fc.constant({ ignore: true, instruments: [] }),
  fc.record({
    instruments: fc.constantFrom(['piano'], ['horns'], ['bank'], ['horns', 'bank', 'lost']),
    articulation: fc.constantFrom(null, null, 'sustain', 'strings', 'nothing'),
    joinWord: fc.constantFrom(null, null, 'a', 'w'),
    transpose: fc.constantFrom(0, 0, 12),
    velocity: fc.constantFrom(1, 1, 0.5),
    controllers: fc.constantFrom(new Map<number, number>(), new Map([[11, 1]])),
    printed: fc.boolean(),
  }),
);
const rule: fc.Arbitrary<Partial<RouteFields>> = fc
  .tuple(
    pattern,
    fc.constantFrom(null, null, '1m*', '2m1'),
    fc.constantFrom(null, null, 1, 2),
    fc.constantFrom(null, null, 1, 2),
    outcome,
  )
  .map(([track, cue, port, channel, rest]) => ({ tracks: [track], cue, port, channel, ...rest }));
const rules = fc.array(rule, { maxLength: 6 });

const routeBy = (
  routes: readonly Route[],
  sketches: readonly TrackSketch[],
  file = 0,
): Routed & { readonly parts: readonly Part[] } => {
  const { score, parts } = scoreOf(sketches);
  const log = new RouteLog();
  return { parts, ...routeScore(templateOf(routes), '1m1', score, parts, file, instruments, log) };
};

/** The rule that decides about a part, found as the design says it. */
const deciding = (routes: readonly Route[], name: string | null, part: Part): Route | undefined =>
  routes.find(
    ({ tracks: patterns, cue, port, channel }) =>
      patterns.some((one) => matchPattern(one, name ?? '') !== null) &&
      (cue === null || matchPattern(cue, '1m1') !== null) &&
      (port === null || port === part.port) &&
      (channel === null || channel === part.channel),
  );

test('each part has exactly one outcome', () => {
  const seen = { played: 0, ignored: 0, unmapped: 0 };
  fc.assert(
    fc.property(rules, tracks, fc.nat(1), (written, sketches, file) => {
      const routes = rulesOf(written);
      const { parts, copies, unmapped } = routeBy(routes, sketches, file);
      for (const part of parts) {
        const heard = copies.flatMap(({ instrument, printed, sources }) =>
          sources
            .filter(
              ({ track, port, channels }) =>
                track === part.track &&
                port === part.port &&
                (channels & (1 << part.channel)) !== 0,
            )
            .map(({ transform }) => ({ instrument, printed, transform })),
        );
        const decided = deciding(routes, sketches[part.track]!.name ?? null, part);
        const play = decided?.outcome.kind === 'play' ? decided.outcome : null;
        if (decided === undefined && part.notes === 0) {
          // Settings that no rule sends anywhere: banks on their port hear them all the same.
          for (const { instrument, transform } of heard) {
            expect([instrument, transform]).toEqual(['bank', unchanged]);
          }
          continue;
        }
        // Once in a copy of each instrument of its rule, and nowhere else.
        expect(heard.sort((a, b) => (a.instrument < b.instrument ? -1 : 1))).toEqual(
          [...(play?.instruments ?? [])].sort().map((instrument) => ({
            instrument,
            printed: play?.printed,
            transform: play?.transform,
          })),
        );
        expect(unmapped.includes(part)).toBe(decided === undefined && part.notes > 0);
        if (play !== null) seen.played += 1;
        else if (decided !== undefined) seen.ignored += 1;
        else seen.unmapped += 1;
      }
    }),
    { numRuns: 1_000 },
  );
  for (const count of Object.values(seen)) expect(count).toBeGreaterThan(100);
});

test('copies of a file have names of their own, parts in order, and one flow of time', () => {
  fc.assert(
    fc.property(rules, tracks, fc.nat(1), (written, sketches, file) => {
      const { copies } = routeBy(rulesOf(written), sketches, file);
      const all = copies.map(({ instrument, name }) => `${instrument}: ${name}`);
      expect(new Set(all).size).toBe(all.length);
      for (const { name, sources } of copies) {
        expect(name).not.toBe('');
        const places = sources.map(({ track, port }) => track * 200 + port);
        expect(places).toEqual([...places].sort((a, b) => a - b));
        expect(new Set(sources.map(({ track }) => sketches[track]!.timeline)).size).toBe(1);
      }
    }),
    { numRuns: 1_000 },
  );
});

const cells = (fields: RouteFields): string =>
  [
    fields.tracks?.[0],
    fields.cue,
    fields.port,
    fields.channel,
    fields.instruments.join(' | '),
    fields.articulation,
    fields.joinWord,
    fields.transpose,
    fields.velocity,
    [...fields.controllers].map(([from, to]) => `${String(from)}:${String(to)}`).join('|'),
    fields.printed ? 'yes' : '',
    fields.ignore ? 'x' : '',
  ]
    .map((cell) => `"${String(cell ?? '')}"`)
    .join(',');

test('a table and rules that say the same do the same', () => {
  const headings =
    'track,cue,port,channel,instrument,articulation,join,transpose,velocity,controllers,printed,ignore';
  let same = 0;
  fc.assert(
    fc.property(rules, tracks, (written, sketches) => {
      const table = [headings, ...written.map((one) => cells(fieldsOf(one)))].join('\n');
      const { routes, problems } = readTracks(new TextEncoder().encode(table), 'tracks.csv', {});
      // Rows that join what can never meet are refused; single rules cannot know of each other.
      fc.pre(problems.every(({ severity }) => severity !== 'error'));
      expect(routeBy(routes, sketches)).toEqual(routeBy(rulesOf(written), sketches));
      same += 1;
    }),
    { numRuns: 500 },
  );
  expect(same).toBeGreaterThan(300);
});

test('names of any kind never throw', () => {
  const any = anyText(20);
  fc.assert(
    fc.property(any, any, any, fc.array(any, { maxLength: 3 }), (track, word, art, sketches) => {
      const made = makeRoute(
        fieldsOf({ tracks: [track], joinWord: word, articulation: art, instruments: ['horns'] }),
        'keepset.yaml',
        { line: 1, column: 1 },
      );
      const routes = 'problem' in made ? [] : [made];
      const all = [track, ...sketches].map((name): TrackSketch => ({ name }));
      const { copies, unmapped } = routeBy([...routes, ...rulesOf([{ channel: 1 }])], all);
      expect(copies.flatMap(({ sources }) => sources)).toHaveLength(all.length);
      expect(unmapped).toEqual([]);
    }),
    { numRuns: 1_000 },
  );
});
