import fc from 'fast-check';
import { expect, test } from 'vitest';
import { MemoryFiles } from '../../src/files/memory-files.ts';
import { check } from '../../src/jobs/check.ts';
import { plan } from '../../src/jobs/plan.ts';
import { report } from '../../src/jobs/report.ts';
import type { Miss } from '../../src/keep/check/check.ts';
import type {
  OverviewArticulation,
  OverviewInstrument,
} from '../../src/overview/overview-instrument.ts';
import type { Playable, PlayableStretch } from '../../src/overview/overview-playable.ts';
import { toJson } from '../../src/report/json.ts';
import { withMessages } from '../../src/report/messages.ts';
import type { Range } from '../../src/terms/range.ts';
import { runs, share } from '../runs.ts';
import {
  barOf,
  cueOf,
  desks,
  isAnswered,
  promiseRig,
  rigFiles,
  span,
  trackOf,
  type Desk,
  type Limits,
  type PromiseRig,
  type Written,
} from './promise-rig.ts';

/**
 * What the page promises a composer: notes that stay within it need nothing that was dropped, and what
 * it does not promise needs something, as `check` finds. The rig says how the notes are written; from
 * the page comes only what it shows.
 */

/** Draws one of a list. */
type Draw = <One>(from: readonly One[]) => One;

const drawFrom = (seed: number): Draw => {
  let state = seed >>> 0;
  return (from) => {
    // The quick generator of Numerical Recipes, second edition, 7.1 (from memory).
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return from[Math.floor((state / 2 ** 32) * from.length)]!;
  };
};

const numbersIn = (ranges: readonly Range[]): readonly number[] =>
  ranges.flatMap(([lo, hi]) => Array.from({ length: hi - lo + 1 }, (_, i) => lo + i));

const holds = ([lo, hi]: Limits, value: number): boolean => lo <= value && value <= hi;

const anyDynamic = numbersIn([[0, 127]]);
const anyVelocity = numbersIn([[1, 127]]);

/** A note for each control of each stretch, inside what that control allows. */
const within = (
  manner: number,
  from: readonly Desk[],
  stretch: PlayableStretch,
  draw: Draw,
): readonly Written[] => {
  const key = draw(numbersIn(stretch.keys));
  const free = (): Written => ({
    ...{ desk: draw(from), manner, key, velocity: draw(anyVelocity), dynamic: draw(anyDynamic) },
    then: draw([null, draw(anyDynamic)]),
  });
  if (stretch.dynamics.length === 0) return [free(), free()];
  if (stretch.together.length > 0) {
    const inBox = (): Written =>
      stretch.together.reduce<Written>((note, { by, range }) => {
        const values = numbersIn([range]);
        if (by === 'velocity') return { ...note, velocity: draw(values) };
        return { ...note, dynamic: draw(values), then: draw([null, draw(values)]) };
      }, free());
    return [inBox(), inBox(), inBox()];
  }
  return stretch.dynamics.flatMap(({ by, safe }): readonly Written[] => {
    const values = numbersIn(safe);
    if (values.length === 0) return [];
    if (by === 'velocity') return [{ ...free(), velocity: draw(values) }];
    return [{ ...free(), dynamic: draw(values), then: draw([null, draw(values)]) }];
  });
};

/** Notes of which one must miss something: one for each recording that the key and the value may mean. */
interface Outside {
  readonly of: 'gone' | 'key' | 'value';
  readonly notes: readonly Written[];
}

const corners = (
  rig: PromiseRig,
  manner: number,
  from: readonly Desk[],
  key: number,
  at: { readonly by: 'velocity' | number; readonly value: number } | null,
): readonly Written[] => {
  const { velocities, dynamics } = rig.manners[manner]!;
  const isVelocity = at?.by === 'velocity';
  // Where layers overlap, one end of a layer asks for its neighbour too.
  const louds = isVelocity ? [at.value] : velocities.flat();
  const wheels = at === null || isVelocity ? dynamics.flat() : [at.value];
  return louds
    .flatMap((velocity) =>
      wheels.flatMap((dynamic) =>
        from.map((desk): Written => ({ desk, manner, key, velocity, dynamic, then: null })),
      ),
    )
    .filter((note) => isAnswered(rig, note));
};

const outside = (
  rig: PromiseRig,
  manner: number,
  from: readonly Desk[],
  playable: Playable,
  draw: Draw,
): readonly Outside[] => {
  const keys = numbersIn(playable.all);
  if (playable.state === 'gone') {
    return keys.length === 0
      ? []
      : [{ of: 'gone', notes: corners(rig, manner, from, draw(keys), null) }];
  }
  const sounding = new Set(numbersIn(playable.stretches.flatMap((one) => one.keys)));
  const silent = keys.filter((key) => !sounding.has(key));
  const found: Outside[] =
    silent.length === 0
      ? []
      : [{ of: 'key', notes: corners(rig, manner, from, draw(silent), null) }];
  for (const stretch of playable.stretches) {
    const key = draw(numbersIn(stretch.keys));
    for (const { by, safe, all } of stretch.dynamics) {
      const values = numbersIn([all]).filter((value) => !numbersIn(safe).includes(value));
      if (values.length === 0) continue;
      found.push({
        of: 'value',
        notes: corners(rig, manner, from, key, { by, value: draw(values) }),
      });
    }
  }
  return found;
};

const isOfNote = ({ samples }: Pick<Miss, 'samples'>): boolean =>
  samples.some((name) => !/(^|\/)r\d|release/.test(name));

const isPlain = ({ doubts }: Miss): boolean => doubts.some((set) => set.length === 0);

const holdsBar = ({ bars }: Miss, place: number): boolean =>
  bars.some((one) => one.bars.some((range) => holds(range, barOf(place))));

interface Seen {
  inside: number;
  /** Of these, within several controls at once. */
  together: number;
  /** Of these, where an end is promised too. */
  ends: number;
  gone: number;
  key: number;
  value: number;
  /** Copies of which less holds than of another. */
  differ: number;
}

const written: fc.Arbitrary<Written> = fc.record({
  desk: fc.constantFrom(...desks),
  manner: fc.nat(2),
  key: fc.integer({ min: span[0], max: span[1] }),
  velocity: fc.integer({ min: 1, max: 127 }),
  dynamic: fc.nat(127),
  then: fc.constant(null),
});

/** A promise, and the desks of which it is. */
interface Promised {
  readonly articulation: string;
  readonly manner: number;
  readonly playable: Playable;
  readonly from: readonly Desk[];
}

/** Of all desks together, and where copies have zones of their own of each desk that the page knows. */
const promisesOf = (
  rig: PromiseRig,
  { copies: all }: OverviewInstrument,
  { name: articulation, playable, copies }: OverviewArticulation,
  manner: number,
): readonly Promised[] => {
  if (rig.shares === 'machine') return [{ articulation, manner, playable, from: desks }];
  const known = desks.flatMap((desk) => {
    const track = trackOf(rig, manner, desk);
    const copy = all.findIndex(({ name }) => [track, `${track} as ${articulation}`].includes(name));
    return copy === -1 ? [] : [{ desk, copy }];
  });
  const each = known.map(({ desk, copy }) => {
    const own = copies.find((one) => one.copy === copy)?.playable;
    // Of each copy that can be asked for it there is one, or of none where all are alike.
    expect(own === undefined).toBe(copies.length === 0);
    return { articulation, manner, playable: own ?? playable, from: [desk] };
  });
  return [{ articulation, manner, playable, from: known.map(({ desk }) => desk) }, ...each];
};

const keepsPromise = async (
  rig: PromiseRig,
  first: readonly Written[],
  seed: number,
  seen: Seen,
): Promise<void> => {
  const draw = drawFrom(seed);
  const there = {
    ...rigFiles(rig),
    'cues/1m1.mid': cueOf(
      rig,
      first.map((one) => ({ ...one, manner: one.manner % rig.manners.length })),
    ),
  };
  const planned = await plan({ files: new MemoryFiles(there) });
  const keep = toJson(withMessages(planned));
  const overview = await report({ files: new MemoryFiles(there) });
  const articulations = overview.instruments[0]!.articulations;
  const told = articulations.flatMap((articulation) => {
    const named = rig.manners.findIndex(({ name }) => articulation.name.toLowerCase() === name);
    const manner = articulations.length === 1 ? 0 : named;
    return manner === -1 ? [] : promisesOf(rig, overview.instruments[0]!, articulation, manner);
  });
  const missed = async (notes: readonly Written[]): Promise<readonly Miss[]> => {
    const files = new MemoryFiles({
      ...{ ...there, 'keep.json': keep },
      'later/1m1 v2.mid': cueOf(rig, notes),
    });
    return (await check({ files, keep: 'keep.json', cues: ['later'] })).misses;
  };

  const promised = told.flatMap(({ playable, manner, from }) =>
    from.length === 0
      ? []
      : playable.stretches.flatMap((stretch) =>
          within(manner, from, stretch, draw).map((note) => ({ note, stretch })),
        ),
  );
  const notes = promised.map(({ note }) => note);
  /** Of the end of a note something may be missing where the page says so. */
  const isPromised = (miss: Miss): boolean =>
    isOfNote(miss) ||
    promised.some(({ stretch }, place) => !stretch.releasesGone && holdsBar(miss, place));
  const broken = (await missed(notes)).filter(isPlain).filter(isPromised);
  expect(
    broken.map((miss) => [miss.samples, notes.filter((_, place) => holdsBar(miss, place))]),
  ).toEqual([]);
  seen.inside += notes.length;
  const hasEnds = rig.manners.some(({ releases }) => releases);
  seen.ends += hasEnds ? promised.filter(({ stretch }) => !stretch.releasesGone).length : 0;
  seen.together += told
    .flatMap(({ playable, from }) => (from.length === 0 ? [] : playable.stretches))
    .filter((stretch) => stretch.together.length > 0).length;
  seen.differ += told.filter(
    ({ playable, articulation }) =>
      JSON.stringify(playable) !==
      JSON.stringify(articulations.find(({ name }) => name === articulation)!.playable),
  ).length;
  const beyond = told.flatMap(({ playable, manner, from }) =>
    outside(rig, manner, from, playable, draw),
  );
  const misses = (await missed(beyond.flatMap((one) => one.notes))).filter(isOfNote);
  let place = 0;
  for (const one of beyond) {
    const places = one.notes.map((_, i) => place + i);
    place += one.notes.length;
    if (one.notes.length === 0) continue;
    // A zone that some notes miss plainly is not told in the bars that only a doubt sends there.
    const isMissed =
      misses.some((miss) => places.some((at) => holdsBar(miss, at))) ||
      (await missed(one.notes)).some(isOfNote);
    expect([one, isMissed]).toEqual([one, true]);
    seen[one.of]++;
  }
};

const hard = { timeout: 180_000 };

test(
  'what can still be written needs nothing that was dropped, all else something',
  hard,
  async () => {
    const seen: Seen = {
      inside: 0,
      together: 0,
      ends: 0,
      gone: 0,
      key: 0,
      value: 0,
      differ: 0,
    };
    await fc.assert(
      fc.asyncProperty(
        promiseRig,
        fc.array(written, { minLength: 1, maxLength: 10, size: 'max' }),
        fc.nat(),
        (rig, first, seed) => keepsPromise(rig, first, seed, seen),
      ),
      { seed: 21, numRuns: runs(240), endOnFailure: true },
    );
    const { inside, together, ends, gone, key, value, differ } = seen;
    expect(
      Math.min(inside, together, ends, gone, key, value, differ),
      JSON.stringify(seen),
    ).toBeGreaterThan(share(16));
  },
);
