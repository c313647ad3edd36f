/** Random cues for outlines: legato with and without gaps, returns, switches, controllers, pedals. */
import fc from 'fast-check';
import type { OutlineEvent, OutlineReel } from './outline-data.ts';
import {
  outlineControllers,
  outlineSpan,
  outlineSwitches,
  type OutlineSelecting,
} from './outline-random.ts';

type Placed = Omit<OutlineEvent, 'seconds'>;

/** Now and then a key beyond every range. */
const key = fc.integer({ min: outlineSpan[0] - 1, max: outlineSpan[1] + 1 });
const velocity = fc.oneof(
  fc.integer({ min: 1, max: 127 }),
  fc.constantFrom(1, 40, 41, 63, 64, 90, 91, 127),
);
const value = fc.oneof(fc.integer({ min: 0, max: 127 }), fc.constantFrom(0, 20, 21, 63, 64, 127));

/** Ticks: shorter and longer than every window, at every tempo that is used. */
const lengths = fc.constantFrom(0, 30, 60, 90, 150, 150, 300, 300, 750);

const on = (tick: number, data1: number, data2: number, channel = 0): Placed => ({
  ...{ tick, channel, kind: 'note-on', data1, data2 },
});

const off = (tick: number, data1: number, channel = 0): Placed => ({
  ...{ tick, channel, kind: 'note-off', data1, data2: 64 },
});

const message = (kind: OutlineEvent['kind'], data1: number, data2: number): Placed[] => [
  { tick: 0, channel: 0, kind, data1, data2 },
];

const controllers = (...numbers: number[]) =>
  fc.tuple(fc.constantFrom(...numbers), value).map(([number, one]) => {
    return message('controller', number, one);
  });

const note = fc
  .record({ key, velocity, length: fc.option(lengths, { freq: 5 }) })
  .map(({ key, velocity, length }) => [
    on(0, key, velocity),
    ...(length === null ? [] : [off(length, key)]),
  ]);

/** A line: each note begins before the one before it ends, with it, or some time after. */
const line = fc
  .array(
    fc.record({
      step: fc.integer({ min: -4, max: 4 }),
      velocity,
      length: fc.constantFrom(90, 150, 300),
      gap: fc.constantFrom(-60, -30, 0, 30, 60, 90, 150, 300),
    }),
    { minLength: 2, maxLength: 4 },
  )
  .chain((notes) => key.map((from) => ({ from, notes })))
  .map(({ from, notes }) => {
    let [tick, at] = [0, from];
    return notes.flatMap(({ step, velocity, length, gap }) => {
      const [begin, struck] = [tick, at];
      tick += length + gap;
      at = Math.min(Math.max(at + step, outlineSpan[0] - 1), outlineSpan[1] + 1);
      return [on(begin, struck, velocity), off(begin + length, struck)];
    });
  });

/** The end of another note comes back to a key that stays down; a controller may move then. */
const returning = fc
  .record({
    key,
    step: fc.constantFrom(-3, -2, -1, 1, 2, 3, 4),
    velocities: fc.tuple(velocity, velocity),
    length: fc.constantFrom(60, 150),
    moved: fc.option(controllers(...outlineControllers.fades)),
  })
  .map(({ key, step, velocities: [first, second], length, moved }) => [
    on(0, key, first),
    on(length, key + step, second),
    off(2 * length, key + step),
    ...(moved ?? []).map((one) => ({ ...one, tick: 2.5 * length })),
    off(3 * length, key),
  ]);

const chord = fc
  .record({
    keys: fc.uniqueArray(key, { minLength: 2, maxLength: 4 }),
    velocity,
    length: lengths,
  })
  .map(({ keys, velocity, length }) => [
    ...keys.map((one) => on(0, one, velocity)),
    ...keys.map((one, i) => off(length + (i % 2) * 30, one)),
  ]);

/** A pedal holds a note, or two bound ones, while a controller moves, and is lifted or not. */
const underPedal = fc
  .record({
    key,
    step: fc.constantFrom(0, 0, -2, -1, 1, 2),
    velocity,
    first: controllers(...outlineControllers.fades),
    last: controllers(...outlineControllers.fades),
    isLifted: fc.boolean(),
  })
  .map(({ key, step, velocity, first, last, isLifted }) => [
    ...message('controller', 64, 127),
    on(0, key, velocity),
    ...(step === 0 ? [] : [on(60, key + step, velocity), off(120, key + step)]),
    off(90, key),
    ...first.map((one) => ({ ...one, tick: 150 })),
    ...(isLifted ? message('controller', 64, 0).map((one) => ({ ...one, tick: 300 })) : []),
    ...last.map((one) => ({ ...one, tick: 450 })),
  ]);

const selections = (selecting: OutlineSelecting): fc.Arbitrary<Placed[]> => {
  switch (selecting) {
    case 'key':
      return fc
        .tuple(fc.constantFrom(...outlineSwitches), fc.constantFrom(0, 30, 300))
        .map(([one, length]) => [on(0, one, 100), off(length, one)]);
    case 'program':
      return fc.constantFrom(0, 3, 7, 9).map((one) => message('program', one, 0));
    case 'controller':
      return controllers(outlineControllers.selects);
    default:
      return fc.constant([]);
  }
};

const phrase = (selecting: OutlineSelecting): fc.Arbitrary<Placed[]> =>
  fc.oneof(
    { weight: 6, arbitrary: note },
    { weight: 4, arbitrary: line },
    { weight: 2, arbitrary: returning },
    { weight: 2, arbitrary: chord },
    { weight: 3, arbitrary: underPedal },
    { weight: 5, arbitrary: selections(selecting) },
    { weight: 5, arbitrary: controllers(...outlineControllers.fades) },
    { weight: 2, arbitrary: controllers(outlineControllers.asked) },
    { weight: 3, arbitrary: controllers(64, 64, 66) },
    { weight: 2, arbitrary: value.map((one) => message('pressure', one, 0)) },
    { weight: 1, arbitrary: fc.constant(message('controller', 123, 0)) },
  );

/** Few moments, so that many things share a tick. */
const moment = fc.nat(8).map((at) => at * 150);

/** Tempos of 60, 120 and 240 beats a minute. */
const tempos = fc.oneof(
  { weight: 2, arbitrary: fc.constant([]) },
  fc
    .array(fc.record({ tick: moment, bpm: fc.constantFrom(60, 120, 240) }), { maxLength: 2 })
    .map((all) =>
      [...new Map(all.map((one) => [one.tick, one])).values()].sort((a, b) => a.tick - b.tick),
    ),
);

const phrases = (selecting: OutlineSelecting, most: number) =>
  fc.array(
    fc.tuple(moment, selecting === 'channel' ? fc.nat(3) : fc.constant(0), phrase(selecting)),
    { minLength: 1, maxLength: most, size: 'max' },
  );

const cue = (selecting: OutlineSelecting): fc.Arbitrary<OutlineReel[number]> =>
  fc
    .record({
      // Often few, so that one thing is not hidden by another.
      phrases: fc.oneof(phrases(selecting, 4), phrases(selecting, 12)),
      tempos,
    })
    .map(({ phrases, tempos }) => ({
      events: phrases
        .flatMap(([from, channel, placed]) =>
          placed.map((one) => ({ ...one, channel, tick: from + one.tick, seconds: 0 })),
        )
        .sort((a, b) => a.tick - b.tick),
      tempos,
    }));

/** One or two cues of one copy; their seconds are still to be worked out from their tempos. */
export function randomOutlineReel(selecting: OutlineSelecting): fc.Arbitrary<OutlineReel> {
  return fc.array(cue(selecting), { minLength: 1, maxLength: 2 });
}
