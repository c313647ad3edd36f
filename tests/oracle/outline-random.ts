/** Random outlines of every feature, and cues that ask for what they have. */
import fc from 'fast-check';
import {
  articulation,
  conditions,
  legato,
  releases,
  type Limits,
  type OutlineArticulation,
  type OutlineAxis,
  type OutlineData,
  type OutlineRoundRobins,
  type OutlineSwitch,
} from './outline-data.ts';
import type { OutlineStyle } from './outline-text.ts';

/** Keys that outlines and cues use: few, so that many notes meet a limit. */
export const outlineSpan: Limits = [58, 67];
export const outlineSwitches = [24, 25, 27] as const;
/** One controller fades, one is a condition, one selects. */
export const outlineControllers = { fades: [1, 11], asked: 20, selects: 32 } as const;

const ordered = (lowest: number, highest: number): fc.Arbitrary<Limits> =>
  fc
    .tuple(fc.integer({ min: lowest, max: highest }), fc.integer({ min: lowest, max: highest }))
    .map(([a, b]) => [Math.min(a, b), Math.max(a, b)]);

const maybe = <Value>(value: fc.Arbitrary<Value>): fc.Arbitrary<Value | null> =>
  fc.option(value, { freq: 2 });

const velocityRanges = fc.constantFrom<readonly Limits[]>(
  [
    [1, 40],
    [41, 90],
    [91, 127],
  ],
  [
    [1, 63],
    [65, 127],
  ],
  [
    [1, 80],
    [64, 127],
  ],
  [[40, 90]],
);
const controllerRanges = fc.constantFrom<readonly Limits[]>(
  [
    [0, 63],
    [64, 127],
  ],
  [
    [0, 20],
    [30, 60],
  ],
  [[1, 127]],
);
const counts = fc.integer({ min: 2, max: 4 });

const axes: fc.Arbitrary<OutlineAxis[]> = fc.oneof(
  { weight: 2, arbitrary: fc.constant<OutlineAxis[]>([]) },
  fc
    .shuffledSubarray(['velocity', ...outlineControllers.fades] as const, {
      minLength: 1,
      maxLength: 2,
    })
    .chain((all) =>
      fc.tuple(
        ...all.map((of) =>
          fc
            .oneof(of === 'velocity' ? velocityRanges : controllerRanges, counts)
            .map((layers): OutlineAxis => ({ of, layers })),
        ),
      ),
    ),
);

const plainTakes: OutlineRoundRobins = { count: 1, borrow: 0 };
const notSaid: OutlineRoundRobins = { count: 1, borrow: null };
const takes: fc.Arbitrary<OutlineRoundRobins> = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(plainTakes, notSaid) },
  fc
    .integer({ min: 2, max: 4 })
    .chain((count) => fc.nat(count - 1).map((borrow) => ({ count, borrow }))),
);

/** What borrows needs something around to borrow from. */
const borrowing = (sampled: readonly number[] | null, one: OutlineRoundRobins) =>
  sampled === null && one.borrow !== null ? { ...one, borrow: 0 } : one;

const keys: fc.Arbitrary<readonly Limits[]> = fc.oneof(
  ordered(...outlineSpan).map((range) => [range]),
  fc
    .tuple(ordered(58, 61), ordered(63, 67), fc.boolean())
    .map(([a, b, swapped]) => (swapped ? [b, a] : [a, b])),
);

const sampled = fc
  .uniqueArray(fc.integer({ min: 56, max: 69 }), { minLength: 1, maxLength: 4 })
  .map((all) => all.sort((a, b) => a - b));

const when = fc
  .record({
    velocity: maybe(fc.constantFrom<Limits>([64, 127], [1, 100])),
    controllers: fc.constantFrom<readonly (readonly [number, Limits])[]>(
      [],
      [[outlineControllers.asked, [64, 127]]],
      [[outlineControllers.asked, [0, 63]]],
    ),
    pressure: maybe(fc.constantFrom<Limits>([1, 127], [0, 63])),
    held: maybe(fc.constantFrom<Limits>([2, 4], [1, 1])),
  })
  .filter(
    ({ velocity, controllers, pressure, held }) =>
      controllers.length > 0 || [velocity, pressure, held].some((one) => one !== null),
  )
  .map(conditions);

type Selected = 'key' | 'program' | 'controller' | 'channel';

const switches: Readonly<Record<Selected, readonly OutlineSwitch[]>> = {
  key: outlineSwitches.map((key) => ({ kind: 'key', key })),
  program: [0, 3, 7].map((program) => ({ kind: 'program', program })),
  controller: [
    [0, 20],
    [21, 60],
    [61, 127],
  ].map(([lo, hi]) => ({
    kind: 'controller',
    number: outlineControllers.selects,
    values: [lo!, hi!],
  })),
  channel: [1, 2, 3].map((channel) => ({ kind: 'channel', channel })),
};

/** What articulations are chosen by, where they are. */
export type OutlineSelecting = Selected | 'nothing';

interface Drafted {
  readonly articulation: OutlineArticulation;
  /** Whether its switch is known, missing, or none. */
  readonly selected: 'known' | 'unknown' | 'none';
}

const drafted: fc.Arbitrary<Drafted> = fc
  .record({
    keys: fc.oneof({ weight: 5, arbitrary: keys }, fc.constant(null)),
    sampled: maybe(sampled),
    stretch: fc.constantFrom('up', 'down', 'nearest', null),
    layers: axes,
    roundRobins: takes,
    releases: fc.option(
      fc
        .record({
          at: fc.constantFrom('release', 'note-off', null),
          layers: axes,
          roundRobins: takes,
        })
        .map(releases),
      { freq: 2 },
    ),
    legato: fc.option(
      fc
        .record({
          intervals: maybe(fc.integer({ min: 1, max: 2 })),
          overlap: maybe(fc.constantFrom(0.08, 0.2)),
          returns: fc.constantFrom(true, false, null),
          layers: axes,
          roundRobins: takes,
        })
        .map(legato),
      { freq: 2 },
    ),
    when: fc.oneof(
      { weight: 5, arbitrary: fc.constant(null) },
      { weight: 2, arbitrary: when },
      fc.constant('player-decides' as const),
    ),
    microphones: fc.constantFrom<readonly string[]>([], [], [], ['close'], ['close', 'hall']),
    selected: fc.constantFrom<Drafted['selected'][]>('known', 'known', 'known', 'unknown', 'none'),
  })
  .map(({ selected, ...given }) => ({
    selected,
    articulation: articulation('', {
      ...given,
      roundRobins: borrowing(given.sampled, given.roundRobins),
      releases: given.releases && {
        ...given.releases,
        roundRobins: borrowing(given.sampled, given.releases.roundRobins),
      },
      legato: given.legato && {
        ...given.legato,
        roundRobins: borrowing(given.sampled, given.legato.roundRobins),
      },
    }),
  }));

const names = ['sustain', 'tremolo', 'staccato'];

export interface RandomOutline {
  readonly outline: OutlineData;
  readonly selecting: OutlineSelecting;
}

/** One to three articulations; one alone has no switch. */
export function randomOutline(): fc.Arbitrary<RandomOutline> {
  return fc
    .record({
      selecting: fc.constantFrom<Selected[]>(
        'key',
        'key',
        'key',
        'program',
        'controller',
        'channel',
      ),
      all: fc.array(drafted, { minLength: 1, maxLength: 3 }),
    })
    .map(({ selecting, all }) => {
      const known = all.filter(
        ({ selected, articulation: { when } }) => selected === 'known' && when !== 'player-decides',
      );
      const articulations = all.map(({ articulation: one, selected }, i): OutlineArticulation => ({
        ...one,
        name: names[i]!,
        switch:
          one.when === 'player-decides'
            ? null
            : selected === 'none'
              ? { kind: 'none' }
              : selected === 'known' && all.length > 1
                ? switches[selecting][i]!
                : null,
      }));
      return {
        outline: { articulations },
        selecting: known.length > 0 ? selecting : 'nothing',
      };
    });
}

/** Random ways to write it: none of them may change what it plays. */
export const outlineStyle: fc.Arbitrary<OutlineStyle> = fc.record({
  middleC: fc.constantFrom(3, 4, 5),
  row: fc.boolean(),
  short: fc.boolean(),
  lists: fc.boolean(),
  seconds: fc.constantFrom(1, 0.25),
});
