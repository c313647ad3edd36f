import { describe, expect, it, test } from 'vitest';
import { makeRoute } from '../../src/template/routes/make-route.ts';
import type { RouteFields } from '../../src/template/routes/route-fields.ts';
import { unchanged, type Route } from '../../src/template/route.ts';
import { fieldsOf } from './rules.ts';
import { patternOf } from './patterns.ts';

const at = { line: 7, column: 5 };
const make = (over: Partial<RouteFields>) => makeRoute(fieldsOf(over), 'keepset.yaml', at);

describe('a rule', () => {
  it('plays', () => {
    expect(make({ tracks: ['Vc {art}'], articulation: ' {art} ' })).toEqual({
      tracks: [patternOf('Vc {art}')],
      cue: null,
      port: null,
      channel: null,
      join: null,
      outcome: {
        kind: 'play',
        instruments: ['piano'],
        articulation: '{art}',
        transform: unchanged,
        printed: false,
      },
      rule: 'track "Vc {art}"',
      file: 'keepset.yaml',
      at,
    } satisfies Route);
  });

  it('counts ports and channels from 0', () => {
    expect(make({ port: 128, channel: 1, cue: '1m*' })).toMatchObject({
      port: 127,
      channel: 0,
      cue: patternOf('1m*'),
      rule: 'track "*", cue "1m*", port 128, channel 1',
    });
  });

  it('changes notes and controllers', () => {
    const controllers = new Map([[11, 1]]);
    expect(make({ transpose: -12, velocity: 0.9, controllers, printed: true })).toMatchObject({
      outcome: { transform: { transpose: -12, velocity: 0.9, controllers }, printed: true },
    });
  });

  it('ignores', () => {
    expect(make({ instruments: [], ignore: true })).toMatchObject({ outcome: { kind: 'ignore' } });
  });

  it('joins by patterns, which name the copy', () => {
    expect(make({ tracks: null, join: ['Cel {n}', 'Cel sw {n}'] })).toMatchObject({
      tracks: [patternOf('Cel {n}'), patternOf('Cel sw {n}')],
      join: 'Cel {n} + Cel sw {n}',
      rule: 'join "Cel {n}" + "Cel sw {n}"',
    });
  });

  it('joins by a word', () => {
    expect(make({ joinWord: 'celesta' })).toMatchObject({ join: 'celesta', rule: 'track "*"' });
  });

  it('an empty text is none', () => {
    expect(make({ articulation: '  ', joinWord: '' })).toMatchObject({
      join: null,
      outcome: { articulation: null },
    });
  });

  it('is shortened where it is long', () => {
    const tracks = ['x'.repeat(60), 'b', 'c', 'd'];
    expect(make({ tracks })).toHaveProperty(
      'rule',
      `track "${'x'.repeat(39)}…" or "b" or "c" or …`,
    );
  });
});

/** Ranges: ports are a data byte (FF 21), channels four bits, controllers seven (MIDI 1.0). */
test.each<[string, Partial<RouteFields>, keyof RouteFields | null, object]>([
  ['route-without-tracks', { tracks: null }, 'tracks', {}],
  ['route-without-tracks', { tracks: [] }, 'tracks', {}],
  ['route-tracks-and-join', { tracks: ['a'], join: ['b', 'c'] }, 'join', {}],
  ['route-join-one', { tracks: null, join: ['b'] }, 'join', { pattern: 'b' }],
  ['route-join-one', { tracks: null, join: [] }, 'join', { pattern: '' }],
  [
    'route-join-captures',
    { tracks: null, join: ['Cel {n}', 'Cel sw'] },
    'join',
    { first: 'Cel {n}', second: 'Cel sw' },
  ],
  [
    'route-pattern',
    { tracks: ['ok', 'Vc {'] },
    'tracks',
    { field: 'tracks', pattern: 'Vc {', problem: 'brace-open', column: 4 },
  ],
  [
    'route-pattern',
    { cue: '**' },
    'cue',
    { field: 'cue', pattern: '**', problem: 'wildcards-touch', column: 2 },
  ],
  [
    'route-pattern',
    { articulation: '{' },
    'articulation',
    { field: 'articulation', pattern: '{', problem: 'brace-open', column: 1 },
  ],
  [
    'route-capture',
    { tracks: ['Vc {art}', 'Vc *'], articulation: '{art}' },
    'articulation',
    { field: 'articulation', capture: 'art', pattern: 'Vc *' },
  ],
  [
    'route-capture',
    { joinWord: 'cel {n}' },
    'joinWord',
    { field: 'joinWord', capture: 'n', pattern: '*' },
  ],
  ['route-without-outcome', { instruments: [] }, null, { rule: 'track "*"' }],
  [
    'route-instrument-twice',
    { instruments: ['a', 'b', 'a'] },
    'instruments',
    { rule: 'track "*"', instrument: 'a' },
  ],
  [
    'route-ignore-and',
    { ignore: true, instruments: ['a'] },
    'instruments',
    { field: 'instruments' },
  ],
  ...(
    [
      { articulation: 'leg' },
      { joinWord: 'x' },
      { transpose: 1 },
      { velocity: 2 },
      { controllers: new Map([[1, 2]]) },
      { printed: true },
    ] as const
  ).map((over): [string, Partial<RouteFields>, keyof RouteFields, object] => [
    'route-ignore-and',
    { ignore: true, instruments: [], ...over },
    Object.keys(over)[0] as keyof RouteFields,
    { field: Object.keys(over)[0] },
  ]),
  ...(
    [
      ['port', 0, 1, 128],
      ['port', 129, 1, 128],
      ['port', 1.5, 1, 128],
      ['channel', 0, 1, 16],
      ['channel', 17, 1, 16],
      ['transpose', -128, -127, 127],
      ['transpose', 128, -127, 127],
      ['transpose', 0.5, -127, 127],
      ['velocity', 0, 0, 10],
      ['velocity', -1, 0, 10],
      ['velocity', 10.01, 0, 10],
      ['velocity', NaN, 0, 10],
    ] as const
  ).map(([field, value, lo, hi]): [string, Partial<RouteFields>, keyof RouteFields, object] => [
    'route-number',
    { [field]: value },
    field,
    { field, value, lo, hi },
  ]),
  ...(
    [
      [128, 1, 128],
      [1, 128, 128],
      [-1, 1, -1],
      [1, 0.5, 0.5],
    ] as const
  ).map(([from, to, value]): [string, Partial<RouteFields>, keyof RouteFields, object] => [
    'route-number',
    { controllers: new Map([[from, to]]) },
    'controllers',
    { field: 'controllers', value, lo: 0, hi: 127 },
  ]),
])('%s: %j', (code, over, field, args) => {
  const made = make(over);
  expect(made).toMatchObject({
    field,
    problem: { code, severity: 'error', file: 'keepset.yaml', at, args },
  });
});

test.each([
  { transpose: 127, velocity: 10 },
  { transpose: -127, velocity: 0.001 },
  {
    controllers: new Map([
      [0, 127],
      [127, 0],
    ]),
  },
])('%j can be', (over) => {
  expect(make(over)).toHaveProperty('rule');
});
