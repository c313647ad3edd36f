import { describe, expect, it } from 'vitest';
import type { RouteFields } from '../../src/template/routes/route-fields.ts';
import { RouteLog } from '../../src/template/routes/route-log.ts';
import { routeScore } from '../../src/template/routes/route-score.ts';
import { instruments, route, templateOf } from './routing.ts';
import { rulesOf } from './rules.ts';
import { scoreOf, type TrackSketch } from './tracks.ts';

type Cues = Readonly<Record<string, readonly TrackSketch[]>>;

/** What is told after routing a reel; each cue has one file. */
const findingsOf = (rules: readonly Partial<RouteFields>[], cues: Cues, isPartial = false) => {
  const log = new RouteLog();
  for (const [cue, tracks] of Object.entries(cues)) route({ rules, tracks, cue, log });
  return log.findings(templateOf(rulesOf(rules)), isPartial);
};

describe('rules', () => {
  it('that no part of any cue matches', () => {
    const rules = [{ tracks: ['Hn*'] }, { tracks: ['Hrn*'] }, { tracks: ['click'], ignore: true }];
    expect(findingsOf(rules, { '1m1': [{ name: 'Hn 1' }], '1m2': [{ name: 'Hn 2' }] })).toEqual([
      {
        code: 'route-unused',
        severity: 'warning',
        file: 'keepset.yaml',
        at: { line: 2, column: 1 },
        args: { rule: 'track "Hrn*"' },
      },
      // A click may be missing without anything being wrong.
      {
        code: 'route-unused',
        severity: 'note',
        file: 'keepset.yaml',
        at: { line: 3, column: 1 },
        args: { rule: 'track "click"' },
      },
    ]);
  });

  it('that one cue uses are used', () => {
    const rules = [{ tracks: ['Hn*'], cue: '1m2' }, { cue: '1m1' }];
    const cues = { '1m1': [{ name: 'Hn 1' }], '1m2': [{ name: 'Hn 2' }] };
    expect(findingsOf(rules, cues)).toEqual([]);
  });

  it('that an earlier one leaves nothing', () => {
    const rules = [{ tracks: ['a'] }, { tracks: ['*'] }, { tracks: ['Hn 1'] }];
    expect(findingsOf(rules, { '1m1': [{ name: 'Hn 1' }, { name: 'a' }] })).toEqual([
      {
        code: 'route-shadowed',
        severity: 'warning',
        file: 'keepset.yaml',
        at: { line: 3, column: 1 },
        args: { rule: 'track "Hn 1"', by: 'track "*"', in: 'keepset.yaml', line: 2 },
      },
    ]);
  });

  it('that the cues at hand leave unused may be for the others, where these are not all', () => {
    const rules = [
      { tracks: ['Hn*'] },
      { tracks: ['Hrn*'] },
      { tracks: ['Hn 1'] },
      { join: ['Vln', 'Vln KS'] },
    ];
    const cues = { '1m1': [{ name: 'Hn 1' }, { name: 'Vln' }, { name: 'Tpt' }] };
    const codes = (isPartial: boolean): readonly string[] =>
      findingsOf(rules, cues, isPartial).map(({ code }) => code);
    expect(codes(false)).toEqual([
      ...['join-idle', 'route-unused', 'route-shadowed', 'part-unmapped'],
    ]);
    expect(codes(true)).toEqual(['part-unmapped']);
  });

  it('that have only some of what they match are fine', () => {
    const rules = [{ tracks: ['Hn 1'] }, { tracks: ['*'] }];
    expect(findingsOf(rules, { '1m1': [{ name: 'Hn 1' }, { name: 'a' }] })).toEqual([]);
  });

  it('that match by port and channel only are matched by them', () => {
    const rules = [{ channel: 2 }, {}];
    expect(findingsOf(rules, { '1m1': [{ name: 'a' }] })).toMatchObject([
      { code: 'route-unused', args: { rule: 'track "*", channel 2' } },
    ]);
  });

  it('count for parts without notes', () => {
    const tracks = [{ name: 'a', events: [[1, 1, 'controller']] as const }];
    expect(findingsOf([{}], { '1m1': tracks })).toEqual([]);
  });

  it('that what could not be read may have used are not called unused', () => {
    const rules = [{ tracks: ['a'] }, { tracks: ['b'] }];
    expect(findingsOf(rules, { '1m1': [{ name: 'a', damaged: true, events: [] }] })).toMatchObject([
      { code: 'route-unused', args: { rule: 'track "b"' } },
    ]);
  });

  it('of a table that is longer than the score are one note', () => {
    const rows = rulesOf(
      ['Hn 1', 'Hn 2', 'Hn 3', 'Hn 4', 'Hn 5'].map((name) => ({ tracks: [name] })),
      'tracks.csv',
    );
    const template = templateOf([...rows, ...rulesOf([{ tracks: ['Vc'] }])]);
    const told = (name: string) => {
      const log = new RouteLog();
      const { score, parts } = scoreOf([{ name }]);
      routeScore(template, '1m1', score, parts, 0, instruments, log);
      return log.findings(template);
    };
    expect(told('Hn 1')).toMatchObject([
      { code: 'route-unused', file: 'keepset.yaml' },
      {
        code: 'rows-unused',
        severity: 'note',
        file: 'tracks.csv',
        at: { line: 2 },
        args: { rows: 4, of: 5, first: ['track "Hn 2"', 'track "Hn 3"', 'track "Hn 4"'] },
      },
    ]);
    // None of them at all is the table of something else.
    expect(told('Vc')).toMatchObject([
      { code: 'rows-unused', severity: 'warning', args: { rows: 5, of: 5 } },
    ]);
  });

  it('that nobody wrote are not told about', () => {
    expect(new RouteLog().findings({ ...templateOf(rulesOf([{}])), path: null })).toEqual([]);
  });
});

describe('parts', () => {
  it('without a rule are told once a cue', () => {
    const rules = [{ tracks: ['Hn*'] }];
    const oboes = [
      {
        name: 'Ob',
        events: [
          [1, 1],
          [1, 2],
          [1, 1],
        ] as const,
      },
      {},
      { name: 'Hn' },
    ];
    const cues = { '1m1': oboes, '1m2': [{ name: 'Hn' }], '1m3': [{ name: 'Ob' }] };
    expect(findingsOf(rules, cues)).toEqual([
      {
        code: 'part-unmapped',
        severity: 'warning',
        file: null,
        at: null,
        args: { cue: '1m1', tracks: ['Ob', null], notes: 4 },
      },
      {
        code: 'part-unmapped',
        severity: 'warning',
        file: null,
        at: null,
        args: { cue: '1m3', tracks: ['Ob'], notes: 1 },
      },
    ]);
  });
});

describe('an articulation that is not there', () => {
  it('is told once, with all tracks', () => {
    const rules = [{ tracks: ['{art} {n}'], instruments: ['horns'], articulation: '{art}' }];
    const cues = {
      '1m1': [{ name: 'stacato 1' }, { name: 'sustain 1' }],
      '1m2': [{ name: 'stacato 2' }, { name: 'stacato 1' }],
    };
    expect(findingsOf(rules, cues)).toEqual([
      {
        code: 'route-articulation',
        severity: 'warning',
        file: 'keepset.yaml',
        at: { line: 1, column: 1 },
        args: {
          instrument: 'horns',
          articulation: 'stacato',
          tracks: ['stacato 1', 'stacato 2'],
          matches: 0,
          near: 'Staccato',
        },
      },
    ]);
  });
});
