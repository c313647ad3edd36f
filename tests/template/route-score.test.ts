import { describe, expect, it, test } from 'vitest';
import { RouteLog } from '../../src/template/routes/route-log.ts';
import { routeScore } from '../../src/template/routes/route-score.ts';
import { copies, copyLine, instruments, route, templateOf, type Case } from './routing.ts';
import { rulesOf } from './rules.ts';
import { scoreOf } from './tracks.ts';

const hn = (name: string) => ({ name });
const toHorns = { tracks: ['Hn*'], instruments: ['horns'] };
const toBank = { instruments: ['bank'] };

/** The rules of the design, sections 5 and 8. */
describe('copies', () => {
  test.each<[string, Case, readonly string[]]>([
    [
      'each track is its own',
      { rules: [toHorns], tracks: [hn('Hn 1'), hn('Vc'), hn('Hn 2')] },
      ['horns: Hn 1 <- 0 p1 c1', 'horns: Hn 2 <- 2 p1 c1'],
    ],
    [
      'the first rule that matches decides',
      {
        rules: [{ tracks: ['Hn 2'] }, toHorns, { tracks: ['*'] }],
        tracks: [hn('Hn 1'), hn('Hn 2')],
      },
      ['horns: Hn 1 <- 0 p1 c1', 'piano: Hn 2 <- 1 p1 c1'],
    ],
    [
      'several patterns of a rule are alternatives',
      { rules: [{ tracks: ['a', 'b'] }], tracks: [hn('A'), hn('B'), hn('C')] },
      ['piano: A <- 0 p1 c1', 'piano: B <- 1 p1 c1'],
    ],
    [
      'a rule may be for some cues',
      { rules: [{ cue: '1M*', instruments: ['horns'] }, {}], tracks: [hn('a')] },
      ['horns: a <- 0 p1 c1'],
    ],
    [
      'and not for others',
      { rules: [{ cue: '1M*', instruments: ['horns'] }, {}], tracks: [hn('a')], cue: '2m1' },
      ['piano: a <- 0 p1 c1'],
    ],
    [
      'parts of one track that one rule takes are one copy; controllers are parts too',
      {
        rules: [{}],
        tracks: [
          {
            name: 'a',
            events: [
              [1, 3],
              [2, 1],
              [1, 1, 'controller'],
              [1, 3],
            ],
          },
        ],
      },
      ['piano: a <- 0 p1 c1,3; 0 p2 c1'],
    ],
    [
      'tracks that share a name, and those without one, are told apart by number',
      { rules: [{}], tracks: [hn('Hn'), {}, hn('Hn'), hn(' ')] },
      [
        'piano: Hn <- 0 p1 c1',
        'piano: track 1 <- 1 p1 c1',
        'piano: Hn (2) <- 2 p1 c1',
        'piano: track 3 <- 3 p1 c1',
      ],
    ],
    ['a track without events has none', { rules: [{}], tracks: [{ name: 'a', events: [] }] }, []],
    [
      'rules by port or channel make copies of their own, named by them',
      {
        rules: [{ channel: 1 }, { port: 2, transpose: 12 }, { instruments: ['horns'] }],
        tracks: [
          {
            name: 'a',
            events: [
              [1, 1],
              [1, 2],
              [2, 1],
              [2, 2],
            ],
          },
        ],
      },
      [
        'piano: a channel 1 <- 0 p1 c1; 0 p2 c1',
        'horns: a <- 0 p1 c2',
        'piano: a port 2 <- 0 p2 c2',
      ],
    ],
    [
      'which they are named by in every cue, also where only one has parts',
      {
        rules: [{ channel: 1 }, { channel: 2 }],
        tracks: [{ name: 'a', events: [[1, 2]] }],
      },
      ['piano: a channel 2 <- 0 p1 c2'],
    ],
    [
      'a rule with a channel needs no such name where no other leads to the instrument',
      { rules: [{ channel: 1 }, { instruments: ['horns'] }], tracks: [hn('a')] },
      ['piano: a <- 0 p1 c1'],
    ],
    [
      'each instrument of a rule has one',
      { rules: [{ instruments: ['horns', 'piano'] }], tracks: [hn('a')] },
      ['horns: a <- 0 p1 c1', 'piano: a <- 0 p1 c1'],
    ],
    [
      'printed ones are apart',
      { rules: [{ tracks: ['a'], printed: true }, {}], tracks: [hn('a'), hn('b')] },
      ['piano: a printed <- 0 p1 c1', 'piano: b <- 1 p1 c1'],
    ],
    ['ignored parts have none', { rules: [{ ignore: true }], tracks: [hn('a')] }, []],
    [
      'further files of a cue have their own',
      { rules: [{ tracks: ['b'], ...toBank }, {}], tracks: [hn('a'), hn('b')], file: 1 },
      ['piano: a file 2 <- 0 p1 c1', 'bank: port 1 file 2 <- 1 p1 c1'],
    ],
    [
      'a name that chance gives twice gets a number',
      {
        rules: [{ tracks: ['x', 'y'], joinWord: 'a' }, {}],
        tracks: [hn('x'), hn('a'), hn('track 3'), {}],
      },
      [
        'piano: a <- 0 p1 c1',
        'piano: a (2) <- 1 p1 c1',
        'piano: track 3 <- 2 p1 c1',
        'piano: track 3 (2) <- 3 p1 c1',
      ],
    ],
  ])('%s', (_, one, lines) => {
    expect(copies(one)).toEqual(lines);
  });
});

describe('joined tracks', () => {
  const cel = { tracks: null, join: ['Cel', 'Cel switches'] };
  test.each<[string, Case, readonly string[]]>([
    [
      'drive one copy',
      { rules: [cel], tracks: [hn('Cel switches'), hn('a'), { name: 'Cel', events: [[2, 5]] }] },
      ['piano: Cel + Cel switches <- 0 p1 c1; 2 p2 c5'],
    ],
    [
      'by rows of the same word',
      {
        rules: [
          { tracks: ['Cel'], joinWord: 'C' },
          { tracks: ['Sw'], joinWord: 'C', transpose: 12 },
        ],
        tracks: [hn('Cel'), hn('Sw')],
      },
      ['piano: C <- 0 p1 c1; 1 p1 c1'],
    ],
    [
      'where the captures are the same, accents and case aside',
      {
        rules: [{ tracks: null, join: ['Hn {p}', 'Hn {p} sw'] }],
        tracks: [hn('Hn sólo'), hn('Hn 2'), hn('Hn 2 sw'), hn('hn SOLO')],
      },
      // `Hn {p}` comes first and takes `2 sw` as well: order matters.
      [
        'piano: Hn sólo + Hn sólo sw <- 0 p1 c1; 3 p1 c1',
        'piano: Hn 2 + Hn 2 sw <- 1 p1 c1',
        'piano: Hn 2 sw + Hn 2 sw sw <- 2 p1 c1',
      ],
    ],
    [
      'the other way round they meet',
      {
        rules: [{ tracks: null, join: ['Hn {p} sw', 'Hn {p}'] }],
        tracks: [hn('Hn 2'), hn('Hn 2 sw'), hn('Hn 1')],
      },
      ['piano: Hn 2 sw + Hn 2 <- 0 p1 c1; 1 p1 c1', 'piano: Hn 1 sw + Hn 1 <- 2 p1 c1'],
    ],
    [
      'captures that the word does not mention follow it',
      {
        rules: [{ tracks: ['{a}-{b}'], joinWord: 'w {b}' }],
        tracks: [hn('1-x'), hn('2-x')],
      },
      ['piano: w x (1) <- 0 p1 c1', 'piano: w x (2) <- 1 p1 c1'],
    ],
    [
      'never across the sequences of format 2',
      { rules: [cel], tracks: [hn('Cel'), { name: 'Cel switches', timeline: 1 }] },
      ['piano: Cel + Cel switches <- 0 p1 c1', 'piano: Cel + Cel switches sequence 2 <- 1 p1 c1'],
    ],
    [
      'of a bank are apart from its ports',
      { rules: [{ ...cel, ...toBank }, toBank], tracks: [hn('Cel'), hn('a'), hn('Cel switches')] },
      ['bank: Cel + Cel switches <- 0 p1 c1; 2 p1 c1', 'bank: port 1 <- 1 p1 c1'],
    ],
  ])('%s', (_, one, lines) => {
    expect(copies(one)).toEqual(lines);
  });
});

describe('a bank', () => {
  test.each<[string, Case, readonly string[]]>([
    [
      'is one copy per port, its tracks merged',
      {
        rules: [toBank],
        tracks: [
          {
            events: [
              [1, 1],
              [2, 1],
            ],
          },
          {
            events: [
              [1, 2],
              [1, 1],
            ],
          },
        ],
      },
      ['bank: port 1 <- 0 p1 c1; 1 p1 c1,2', 'bank: port 2 <- 0 p2 c1'],
    ],
    [
      'whichever rules lead to it; what they change stays apart',
      {
        rules: [
          { channel: 1, ...toBank },
          { channel: 2, transpose: 12, ...toBank },
          { channel: 3, transpose: 12, ...toBank },
        ],
        tracks: [
          {
            events: [
              [1, 1],
              [1, 2],
              [1, 3],
            ],
          },
        ],
      },
      ['bank: port 1 <- 0 p1 c1; 0 p1 c2,3'],
    ],
    [
      'keeps the sequences of format 2 apart',
      { rules: [toBank], tracks: [{}, { timeline: 1 }, { timeline: 1 }] },
      ['bank: port 1 <- 0 p1 c1', 'bank: port 1 sequence 2 <- 1 p1 c1; 2 p1 c1'],
    ],
    [
      'has a copy per articulation that rules name',
      {
        rules: [{ tracks: ['a'], articulation: '128:0', ...toBank }, toBank],
        tracks: [hn('a'), hn('b')],
      },
      ['bank: port 1 as 128:0 Kit <- 0 p1 c1', 'bank: port 1 <- 1 p1 c1'],
    ],
  ])('%s', (_, one, lines) => {
    expect(copies(one)).toEqual(lines);
  });
});

describe('what happens on the way', () => {
  it('goes with each source', () => {
    const controllers = new Map([[11, 1]]);
    const { copies } = route({
      rules: [{ tracks: ['a'], transpose: -12, velocity: 0.9, controllers }, {}],
      tracks: [hn('a'), hn('b')],
    });
    expect(copies.map(({ sources }) => sources[0]?.transform)).toEqual([
      { transpose: -12, velocity: 0.9, controllers },
      { transpose: 0, velocity: 1, controllers: new Map() },
    ]);
  });
});

describe('an articulation', () => {
  const articulation = (written: string, track: string, over: Partial<Case> = {}) => {
    const log = new RouteLog();
    const rules = [{ tracks: ['{art}'], instruments: ['horns'], articulation: written }];
    const { copies } = route({ rules, tracks: [hn(track)], log, ...over });
    const [found] = log.findings(templateOf(rulesOf(rules)));
    return [copies[0]?.articulation, copies[0]?.name, found?.args ?? null] as const;
  };
  const names = { Leg: 'legato', stac: 'staccato' };

  test.each([
    ['{art}', 'sustain', 'sustain'],
    ['{ART}', 'STACCATO', 'Staccato'],
    ['{art}', 'leg', 'Légato'],
    ['{art}o', 'légat', 'Légato'],
    ['legato', 'x', 'Légato'],
    ['LEG', 'x', 'Légato'],
  ])('%s of track %s is %s', (written, track, found) => {
    expect(articulation(written, track, { names })).toEqual([found, `${track} as ${found}`, null]);
  });

  test.each([
    ['{art}', 'stacato', 'stacato', 0, 'Staccato'],
    ['{art}', 'pizz', 'pizz', 0, null],
    ['{art}', 'sus', 'sus', 2, null],
    ['{art}', 'stac', 'tremolo', 0, null],
  ])('%s of track %s is not there', (written, track, name, matches, near) => {
    const over = { names: { stac: 'tremolo' } };
    expect(articulation(written, track, over)).toEqual([
      null,
      track,
      { instrument: 'horns', articulation: name, tracks: [track], matches, near },
    ]);
  });

  test.each([
    ['0:48 Strings', '0:48 Strings', 1],
    ['strings', '0:48 Strings', 1],
    ['0:48', '0:48 Strings', 1],
    ['Strings 2', '8:48 Strings 2', 1],
    ['48', null, 0],
  ])('preset %s is %s', (written, found, matches) => {
    const log = new RouteLog();
    const rules = [{ articulation: written, ...toBank }];
    const { copies } = route({ rules, tracks: [hn('a')], log });
    expect(copies[0]?.articulation).toBe(found);
    expect(log.findings(templateOf(rulesOf(rules)))).toHaveLength(1 - matches);
  });

  it('two presets of one name are told apart by their numbers', () => {
    const log = new RouteLog();
    const rules = [
      { tracks: ['a'], articulation: 'grand', instruments: ['twins'] },
      { articulation: '1:0', instruments: ['twins'] },
    ];
    const { copies } = route({ rules, tracks: [hn('a'), hn('b')], log });
    expect(copies.map(({ articulation }) => articulation)).toEqual([null, '1:0 Grand']);
    expect(log.findings(templateOf(rulesOf(rules)))).toMatchObject([
      { code: 'route-articulation', args: { matches: 2, near: null } },
    ]);
  });

  it('is looked for in instruments that are there', () => {
    const rules = [{ instruments: ['lost'], articulation: 'leg' }];
    expect(copies({ rules, tracks: [hn('a')] })).toEqual(['lost: a <- 0 p1 c1']);
  });
});

describe('parts that no rule takes', () => {
  const tracks = [
    hn('Ob'),
    { name: 'Fl', events: [[1, 1, 'controller']] as const },
    {
      name: 'Hn',
      events: [
        [1, 1],
        [1, 2],
      ] as const,
    },
  ];
  it('are listed when they have notes', () => {
    const { unmapped, copies } = route({ rules: [{ tracks: ['hn'], channel: 1 }], tracks });
    expect(unmapped.map(({ track, channel }) => [track, channel])).toEqual([
      [0, 0],
      [2, 1],
    ]);
    expect(copies.map(copyLine)).toEqual(['piano: Hn <- 2 p1 c1']);
  });
});

describe('what could not be read', () => {
  const rules = [
    { tracks: ['Hn*'], instruments: ['horns'], channel: 5 },
    { tracks: ['Hn*'], cue: '2m*', instruments: ['bank'] },
    { tracks: ['Ob'], instruments: ['twins'] },
    { tracks: ['*'], instruments: ['piano'], port: 3 },
    { tracks: ['click'], ignore: true },
  ];
  const all = [...instruments.keys()];
  test.each([
    ['nothing', [hn('Hn 1')], 0, '1m1', []],
    ['any port and channel', [{ name: 'Hn 1', damaged: true }], 0, '1m1', ['piano', 'horns']],
    [
      'also without events',
      [{ name: 'Hn 1', damaged: true, events: [] }],
      0,
      '1m1',
      ['piano', 'horns'],
    ],
    ['in this cue', [{ name: 'Hn 1', damaged: true }], 0, '2m1', ['horns', 'bank']],
    [
      'several tracks',
      [
        { name: 'Ob', damaged: true },
        { name: 'x', damaged: true },
      ],
      0,
      '1m1',
      ['piano', 'twins'],
    ],
    ['a name that was lost', [{ name: null, damaged: true }], 0, '1m1', all],
    ['an empty name is a name', [{ name: '', damaged: true }], 0, '1m1', ['piano']],
    ['a track that is missing', [hn('Hn 1')], 1, '1m1', all],
  ] as const)('%s', (_, tracks, missing, cue, tainted) => {
    expect(route({ rules, tracks, missing, cue }).tainted).toEqual(tainted);
  });
});

test('names are matched once, however many cues have them', () => {
  const tracks = Array.from({ length: 600 }, (_, i) => hn(`Track ${String(i)} leg`));
  const rules = Array.from({ length: 100 }, (_, i) => ({ tracks: [`*${String(i)} {art}`] }));
  const template = templateOf(rulesOf(rules));
  // Every match of a pattern reads its pieces.
  let reads = 0;
  const counted = template.routes.map((one) => ({
    ...one,
    tracks: one.tracks.map((pattern) => ({
      text: pattern.text,
      captures: pattern.captures,
      get pieces() {
        reads += 1;
        return pattern.pieces;
      },
    })),
  }));
  const { score, parts } = scoreOf(tracks);
  const routed = Array.from({ length: 3 }, (_, cue) => {
    const before = reads;
    const { copies } = routeScore(
      { ...template, routes: counted },
      `1m${String(cue)}`,
      score,
      parts,
      0,
      instruments,
      new RouteLog(),
    );
    return [copies.length, reads - before];
  });
  // The rules of one digit take every track.
  expect(routed.map(([made]) => made)).toEqual([600, 600, 600]);
  expect(routed[0]?.[1]).toBeGreaterThan(0);
  expect(routed.slice(1).map(([, more]) => more)).toEqual([0, 0]);
});
