import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Instrument } from '../../../src/instruments/instrument.ts';
import type { LayerAxis, OutlineArticulation } from '../../../src/instruments/outline/outline.ts';
import { zoneDoubts } from '../../../src/keep/reach.ts';
import { off, on, usageOf } from '../../playback/hand-made.ts';
import type { OracleEvent } from '../../oracle/soundfont-events.ts';
import { articulation, built, key, legato, releases } from './build.ts';
import { runs, share } from '../../runs.ts';

/**
 * The less an outline says, the more it keeps: a law of the design, section 8. An outline is random, and
 * what is left out of it is random too.
 */
const layers: fc.Arbitrary<LayerAxis> = fc.integer({ min: 2, max: 126 }).map((border) => ({
  by: 'velocity',
  count: 2,
  ranges: [
    [1, border],
    [border + 1, 127],
  ],
}));

const detailed = (name: string, choice: OutlineArticulation['choice']) =>
  fc
    .record({
      sampled: fc.uniqueArray(fc.integer({ min: 55, max: 70 }), { minLength: 1, maxLength: 4 }),
      stretch: fc.constantFrom('up', 'down', 'nearest'),
      layers: fc.array(layers, { maxLength: 1 }),
      roundRobins: fc.constantFrom(
        ...[
          { count: 1, borrow: 0 },
          { count: 3, borrow: 1 },
        ],
      ),
      releases: fc.constantFrom(releases(), releases({ event: 'note-off' })),
      legato: fc.record({
        intervals: fc.integer({ min: 1, max: 4 }),
        overlap: fc.constantFrom(0, 0.02, 0.2),
        returns: fc.boolean(),
      }),
    })
    .map((made) =>
      articulation(name, {
        ...made,
        sampled: made.sampled.sort((a, b) => a - b),
        legato: legato(made.legato),
        choice,
        keys: [[57, 68]],
      }),
    );

/** What may be left out, each by itself. */
const fields = [
  ...['sampled', 'stretch', 'borders', 'layers', 'takes', 'release', 'intervals', 'overlap'],
  'returns',
] as const;

const notSaid = { count: 1, borrow: null } as const;

const without = (own: OutlineArticulation, gone: ReadonlySet<string>): OutlineArticulation => ({
  ...own,
  ...(gone.has('sampled') ? { sampled: null } : {}),
  ...(gone.has('stretch') ? { stretch: null } : {}),
  ...(gone.has('takes') ? { roundRobins: notSaid } : {}),
  ...(gone.has('borders') ? { layers: own.layers.map((one) => ({ ...one, ranges: null })) } : {}),
  ...(gone.has('layers') ? { layers: [] } : {}),
  releases: own.releases && { ...own.releases, ...(gone.has('release') ? { event: null } : {}) },
  legato: own.legato && {
    ...own.legato,
    ...(gone.has('intervals') ? { intervals: null } : {}),
    ...(gone.has('overlap') ? { overlap: null } : {}),
    ...(gone.has('returns') ? { returns: null } : {}),
  },
});

/** @param min @param max the keys of its notes; beside them it has switches */
const cueWithin = (min: number, max: number): fc.Arbitrary<readonly OracleEvent[]> =>
  fc
    .array(
      fc.record({
        gap: fc.constantFrom(0, 10, 100, 400),
        key: fc.oneof(fc.integer({ min, max }), fc.constantFrom(24, 25)),
        velocity: fc.integer({ min: 1, max: 127 }),
        long: fc.constantFrom(5, 100, 150, 600),
      }),
      { minLength: 1, maxLength: 8 },
    )
    .map((notes) => {
      let now = 0;
      return notes
        .flatMap(({ gap, key: pressed, velocity, long }) => {
          now += gap;
          return [on(now, pressed, velocity), off(now + long, pressed)];
        })
        .sort((a, b) => a.tick - b.tick);
    });

const cue = cueWithin(55, 70);

/** Zones that the cue reaches, by any doubt. */
const kept = (instrument: Instrument, events: readonly OracleEvent[]): readonly number[] =>
  zoneDoubts(instrument, [usageOf(instrument, events)]).flatMap((sets, z) =>
    sets.length > 0 ? [z] : [],
  );

/** What is left of a zone's name when all that may be left out is left out. */
const partsOf = (name: string) => {
  const words = name.split(' ');
  const velocity = words.find((word) => /^v\d/u.test(word)) ?? null;
  const interval = words.find((word) => /^[+-]\d+$/u.test(word)) ?? null;
  const layer = /layer (\d+) of/u.exec(name)?.[1] ?? null;
  return {
    ...{ articulation: words[0], place: words[1]!, velocity, interval, layer },
    take: words.find((word) => word.startsWith('rr')) ?? null,
    role: words.includes('release') ? 'release' : words.includes('legato') ? 'legato' : 'note',
  };
};

type Parts = ReturnType<typeof partsOf>;

/** The zone of the coarse outline stands for the zone of the detailed one. */
const covers = (coarse: Parts, fine: Parts, borders: OutlineArticulation['layers']): boolean =>
  coarse.articulation === fine.articulation &&
  coarse.role === fine.role &&
  (coarse.place.includes('-') || coarse.place === fine.place) &&
  (coarse.interval === null || coarse.interval === fine.interval) &&
  (coarse.take === null || coarse.take === fine.take) &&
  (coarse.velocity === null || coarse.velocity === fine.velocity) &&
  (coarse.layer === null ||
    `v${borders[0]!.ranges![Number(coarse.layer) - 1]!.join('-')}`.replace(/v(\d+)-\1$/u, 'v$1') ===
      fine.velocity);

test('what a detailed outline keeps, one that says less keeps too', () => {
  let compared = 0;
  fc.assert(
    fc.property(
      detailed('a', key(24)),
      detailed('b', key(25)),
      fc.subarray([...fields]),
      cue,
      (a, b, list, events) => {
        const gone = new Set<string>(list);
        const fine = built(a, b);
        const coarse = built(without(a, gone), without(b, gone));
        const left = kept(coarse, events).map((z) => partsOf(coarse.zones[z]!.key!));
        for (const z of kept(fine, events)) {
          const name = fine.zones[z]!.key!;
          const own = partsOf(name);
          const borders = (own.articulation === 'a' ? a : b).layers;
          compared++;
          expect(left.some((one) => covers(one, own, borders)) ? '' : name).toBe('');
        }
      },
    ),
    { seed: 8, numRuns: runs(150) },
  );
  expect(compared).toBeGreaterThan(share(500));
});

/** Name, switch and keys are all that is said. */
const bare = ({ name, choice, keys }: OutlineArticulation): OutlineArticulation =>
  articulation(name, { choice, keys, roundRobins: notSaid });

const keptArticulations = (instrument: Instrument, events: readonly OracleEvent[]) =>
  new Set(kept(instrument, events).map((z) => partsOf(instrument.zones[z]!.key!).articulation));

test('level 0 keeps every articulation that a detailed one keeps: notes, releases, returns', () => {
  let compared = 0;
  fc.assert(
    fc.property(
      detailed('a', key(24)),
      detailed('b', key(25)),
      // What goes up is within the range: see below.
      cueWithin(57, 68),
      (a, b, events) => {
        const coarse = keptArticulations(built(bare(a), bare(b)), events);
        for (const own of keptArticulations(built(a, b), events)) {
          compared++;
          expect(coarse).toContain(own);
        }
      },
    ),
    { seed: 9, numRuns: runs(200) },
  );
  expect(compared).toBeGreaterThan(share(200));
});

/** Two limits of the law. When one of these fails, the limit is gone: ask for it above. */
test('what level 0 does not know: a key beyond the range that goes up, and conditions read then', () => {
  const own = { keys: [[57, 68]], sampled: [57, 68] } as const;
  const back = legato({ intervals: 4, overlap: 0, returns: true });
  const a = articulation('a', { ...own, choice: key(24) });
  const b = articulation('b', { ...own, choice: key(25), legato: back });
  /** 68 is struck and let go as `a`; another key goes up while `b` is chosen. */
  const around = (other: number) => [
    ...[on(0, 24), off(1, 24), on(10, 68), on(20, other), on(30, 25), off(31, 25)],
    ...[off(40, other), on(50, 24), off(51, 24), off(60, 68)],
  ];
  expect([...keptArticulations(built(a, b), around(70))]).toEqual(['a', 'b']);
  expect([...keptArticulations(built(bare(a), bare(b)), around(70))]).toEqual(['a']);
  expect([...keptArticulations(built(bare(a), bare(b)), around(67))]).toEqual(['a', 'b']);
  const alone = { ...b, when: { ...b.when, held: [1, 1] } } as const;
  const said = { ...bare(b), when: alone.when };
  expect([...keptArticulations(built(a, alone), around(67))]).toEqual(['a', 'b']);
  expect([...keptArticulations(built(bare(a), said), around(67))]).toEqual(['a']);
});
