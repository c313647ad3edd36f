import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { plan } from '../../src/jobs/plan.ts';
import type { Plan } from '../../src/keep/plan.ts';
import type { Grain } from '../../src/template/player.ts';
import { closedUp, type GrainZone } from '../oracle/grain.ts';
import { cueBytes, type CueNote, type CueTrack } from './midi-cue.ts';
import { runs } from '../runs.ts';

/** Laws of templates, from the text of the files to the plan. */
const table = `key,articulation,switch,keys,velocities,microphone,bytes
a,long,24,58-62,1-127,near,1000
b,long,24,58-62,1-127,far,2000
c,long,24,63-66,1-127,near,4000
d,short,25,58-66,1-64,near,8000
e,short,25,58-66,65-127,near,16000
f,roll,26,60-60,1-127,far,32000
g,,,58-60,100-127,near,64000
`;

const zones: readonly GrainZone[] = table
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => {
    const [, articulation, , , velocities, microphone] = line.split(',');
    const [lo, hi] = velocities!.split('-').map(Number);
    return {
      articulation: articulation === '' ? null : articulation!,
      velocities: [lo!, hi!],
      controllers: [],
      microphone: microphone!,
    };
  });

const template = (unloads: Grain, routes: string, shares = 'machine'): string => `
cues: cues/*.mid
machines: { a: { memory: 1 GiB } }
players: { p: { loads: whole, shares: ${shares}, unloads: ${unloads} } }
instruments: { band: { zones: band.csv, middle-c: C4 } }
${routes}
`;

const note = (from: number, to: number) =>
  fc.record({
    tick: fc.integer({ min: from, max: to }),
    length: fc.integer({ min: 1, max: 60 }),
    key: fc.oneof(fc.constantFrom(24, 25, 26), fc.integer({ min: 57, max: 67 })),
    velocity: fc.integer({ min: 1, max: 127 }),
  });
const notes = (from: number, to: number) =>
  fc.array(note(from, to), { minLength: 1, maxLength: 6 });

const planOf = (
  keepset: string,
  tracks: readonly CueTrack[],
  more: Readonly<Record<string, string>> = {},
): Promise<Plan> => {
  const files = new MemoryFiles({
    'keepset.yaml': keepset,
    'band.csv': table,
    'cues/1m1.mid': cueBytes(tracks),
    ...more,
  });
  return plan({ files });
};

const keptOf = ({ instruments: [band] }: Plan): readonly number[] =>
  band!.kept.map(({ zone }) => zone);

const everything = `routes: [{ track: '*', instrument: band }]`;

describe('grain', () => {
  test('keeps what the naive model does, and a coarser one never less', async () => {
    await fc.assert(
      fc.asyncProperty(notes(0, 400), notes(0, 400), async (one, two) => {
        const tracks = [
          { name: 'One', notes: one },
          { name: 'Two', notes: two },
        ];
        const kept = new Map<Grain, readonly number[]>();
        for (const grain of [
          'sample',
          'layer',
          'articulation',
          'microphone',
          'instrument',
        ] as const) {
          kept.set(grain, keptOf(await planOf(template(grain, everything), tracks)));
        }
        const fine = kept.get('sample')!;
        for (const [grain, found] of kept) expect(found).toEqual(closedUp(zones, fine, grain));
        const within = (a: Grain, b: Grain): void => {
          expect(kept.get(b)).toEqual(expect.arrayContaining([...kept.get(a)!]));
        };
        within('sample', 'layer');
        within('layer', 'articulation');
        within('articulation', 'instrument');
        within('microphone', 'instrument');
      }),
      { seed: 31, numRuns: runs(60) },
    );
  });
});

describe('joining', () => {
  /** A phrase that says its switch itself before its first note. */
  const phrase = (from: number) =>
    fc
      .tuple(fc.constantFrom(24, 25, 26), notes(from + 20, from + 300))
      .map(([key, some]): readonly CueNote[] => [
        { tick: from, length: 5, key, velocity: 90 },
        ...some,
      ]);

  test('changes nothing for parts that never overlap', async () => {
    await fc.assert(
      fc.asyncProperty(phrase(0), phrase(1_000), async (one, two) => {
        const tracks = [
          { name: 'One', notes: one },
          { name: 'Two', notes: two },
        ];
        const joined = `routes: [{ join: [One, Two], instrument: band }]`;
        const apart = await planOf(template('sample', everything), tracks);
        const together = await planOf(template('sample', joined), tracks);
        expect(together.instruments[0]!.kept).toEqual(apart.instruments[0]!.kept);
        expect(together.total).toEqual({
          ...apart.total,
          // Two copies were loaded that share their samples: the totals are the same.
          bytes: apart.total.bytes,
        });
        expect(together.instruments[0]!.copies).toHaveLength(1);
        expect(apart.instruments[0]!.copies).toHaveLength(2);
      }),
      { seed: 32, numRuns: runs(60) },
    );
  });

  test('is suggested where switches stand on a track of their own, and then frees memory', async () => {
    const tracks = [
      { name: 'Band', notes: [{ tick: 480, length: 100, key: 60, velocity: 80 }] },
      { name: 'Band switches', notes: [{ tick: 0, length: 10, key: 25, velocity: 80 }] },
    ];
    const apart = await planOf(template('sample', everything), tracks);
    expect(apart.instruments[0]!.kept.flatMap(({ reasons }) => reasons)).toContain('no-switch');
    const suggested = apart.findings.find(({ code }) => code === 'join-suggested');
    expect(suggested?.args).toEqual({
      instrument: 'band',
      switches: ['Band switches'],
      notes: ['Band'],
    });
    const joined = await planOf(
      template('sample', `routes: [{ join: [Band, Band switches], instrument: band }]`),
      tracks,
    );
    expect(joined.findings.map(({ code }) => code)).not.toContain('join-suggested');
    expect(joined.instruments[0]!.kept.map(({ reasons }) => reasons)).toEqual([['played']]);
    expect(joined.total.bytes.kept).toBeLessThan(apart.total.bytes.kept);
  });
});

describe('a table of tracks', () => {
  const result = ({ instruments, machines, doubts, together, printed, total, cues }: Plan) => ({
    instruments,
    machines,
    doubts,
    together,
    printed,
    total,
    cues,
  });

  test('says what routes say, to the byte', async () => {
    await fc.assert(
      fc.asyncProperty(
        notes(0, 400),
        notes(0, 400),
        notes(0, 400),
        fc.integer({ min: -12, max: 12 }),
        fc.constantFrom('0.5', '1.2', '1'),
        async (one, two, three, transpose, velocity) => {
          const tracks = [
            { name: 'Été 1', notes: one },
            { name: 'Click', notes: two },
            { name: 'Low long', notes: three },
          ];
          const routes = `routes:
  - { track: "ete*", instrument: band, transpose: ${String(transpose)}, velocity: ${velocity} }
  - { track: click, ignore: true }
  - { track: "Low {art}", instrument: band, articulation: "{art}" }`;
          const rows = `Track;Instrument;Articulation;Transpose;Velocity;Ignore
ete*;band;;${String(transpose)};${velocity.replace('.', ',')};
click;;;;;yes
Low {art};band;{art};;;
`;
          const byRoutes = await planOf(template('layer', routes, 'copy'), tracks);
          const byTable = await planOf(template('layer', 'tracks: tracks.csv', 'copy'), tracks, {
            'tracks.csv': rows,
          });
          expect(result(byTable)).toEqual(result(byRoutes));
        },
      ),
      { seed: 33, numRuns: runs(40) },
    );
  });
});

describe('whatever the user keeps', () => {
  const tracks = [
    {
      name: 'Band',
      notes: [
        { tick: 0, length: 10, key: 24, velocity: 80 },
        { tick: 480, length: 100, key: 61, velocity: 80 },
      ],
    },
  ];

  test('pins keep an articulation that no cue plays, with the reason', async () => {
    const { instruments } = await planOf(
      template(
        'sample',
        `${everything}\npins: [{ instrument: band, articulation: Short, velocities: 1-64 }]`,
      ),
      tracks,
    );
    expect(instruments[0]!.kept.map(({ key, reasons }) => [key, ...reasons])).toEqual([
      ['a', 'played'],
      ['b', 'played'],
      ['d', 'pinned'],
    ]);
  });

  test('headroom widens what was played under the same switches, and nothing else', async () => {
    const { instruments } = await planOf(
      template('sample', `${everything}\nheadroom: { keys: 2, velocity: 20 }`),
      tracks,
    );
    expect(instruments[0]!.kept.map(({ key, reasons }) => [key, ...reasons])).toEqual([
      ['a', 'played'],
      ['b', 'played'],
      ['c', 'headroom'],
      ['g', 'headroom'],
    ]);
  });

  test('printed tracks are priced, and need nothing', async () => {
    const { printed, total, instruments } = await planOf(
      template('sample', `routes: [{ track: '*', instrument: band, printed: true }]`),
      tracks,
    );
    expect(total.bytes.kept).toBe(0);
    expect(instruments[0]!.zonesKept).toBe(0);
    expect(printed).toEqual({ parts: 1, zones: 2, bytes: 3_000 });
  });
});
