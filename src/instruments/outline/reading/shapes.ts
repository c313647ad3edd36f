import * as v from 'valibot';
import * as general from '../../../notation/document/leaves.ts';
import { group, list, named, oneOrMore, type Shape } from '../../../notation/document/shape-of.ts';
import type { YamlNode } from '../../../notation/yaml/tree.ts';
import type { Range } from '../../../terms/range.ts';
import type { RoundRobins } from '../outline.ts';
import { keys } from './keys.ts';
import { layers } from './layer-shapes.ts';
import * as leaf from './leaves.ts';
import { known, maybe } from './open.ts';

/** A shape for groups, and another for all else. */
const groupOr = <Group, Else>(whole: Shape<Group>, short: Shape<Else>): Shape<Group | Else> =>
  v.lazy((node: unknown): Shape<Group | Else> =>
    (node as YamlNode).kind === 'map' ? whole : short,
  );

/** One or more texts, each of several things; null where one of them is left open. */
const joined = <Item>(item: Shape<readonly Item[]>): Shape<readonly Item[] | null> =>
  v.pipe(
    oneOrMore(known(item)),
    v.check((items) => items.length > 0, 'some'),
    v.transform((items): readonly Item[] | null => {
      const all = items.filter((one) => one !== null);
      return all.length < items.length ? null : all.flat();
    }),
  );

const count = general.whole(1, 128);

const roundRobins: Shape<RoundRobins> = groupOr(
  v.pipe(
    group(keys.roundRobins, { count: maybe(count), borrow: maybe(general.whole(0, 127)) }),
    // Where both are still to be filled in, nothing is said of takes.
    v.transform(({ count: all, borrow }) => ({
      count: all ?? 1,
      borrow: all === null && borrow === null ? null : (borrow ?? 0),
    })),
  ),
  v.pipe(
    count,
    v.transform((all) => ({ count: all, borrow: 0 })),
  ),
);

const controller = v.pipe(
  v.string(),
  v.check((key) => /^(?:cc ?)?(?:\d{1,2}|1[01]\d|12[0-7])$/iu.test(key), 'controller-of'),
  v.transform((key) => Number(/\d+/u.exec(key)![0])),
);

const when = groupOr(
  group(keys.when, {
    velocity: maybe(general.velocities),
    controllers: maybe(named(controller, known(leaf.border))),
    pressure: maybe(leaf.border),
    held: maybe(leaf.held),
  }),
  leaf.playerDecides,
);

const releases = groupOr(
  group(keys.releases, {
    seconds: maybe(leaf.seconds),
    at: maybe(general.choice(['release', 'note-off'])),
    'round-robins': maybe(roundRobins),
    layers: maybe(layers),
    measured: maybe(general.size),
  }),
  leaf.yesOrLength,
);

const legato = groupOr(
  group(keys.legato, {
    intervals: maybe(general.whole(1, 127)),
    seconds: maybe(leaf.seconds),
    overlap: maybe(leaf.overlap),
    returns: maybe(leaf.yesOrNo),
    layers: maybe(layers),
    'round-robins': maybe(roundRobins),
    measured: maybe(general.size),
  }),
  leaf.yesOrNo,
);

const microphones = v.pipe(
  oneOrMore(known(general.text)),
  v.check((names) => names.length > 0, 'microphones'),
);

const sound = {
  rate: maybe(leaf.rate),
  bits: maybe(leaf.bits),
  channels: maybe(general.whole(1, leaf.mostChannels)),
  seconds: maybe(leaf.seconds),
  microphones: maybe(microphones),
};

/** The keys at the top of an outline that stand for themselves. */
export const topShapes = {
  middleC: general.middleC,
  rate: leaf.rate,
  bits: leaf.bits,
  channels: general.whole(1, leaf.mostChannels),
  seconds: leaf.seconds,
  microphones,
  measured: known(group(keys.measured, { empty: maybe(general.size), full: maybe(general.size) })),
} as const;

/**
 * What may stand where keys are named, but for what parts of an outline must agree on.
 *
 * @param middleC the octave of key 60 in the outline
 */
export const shapesOf = (middleC: number) =>
  ({
    switches: known(
      group(keys.switches, {
        from: leaf.key(middleC),
        names: list(known(general.text)),
      }),
    ),
    /** A text alone is where it can be played. */
    range: leaf.playingRange(middleC) satisfies Shape<readonly Range[]>,
    articulation: group(keys.articulation, {
      like: maybe(general.text),
      switch: maybe(leaf.switchOf(middleC)),
      keys: maybe(joined(leaf.keyRanges(middleC))),
      sampled: maybe(joined(leaf.sampledKeys(middleC))),
      stretch: maybe(general.choice(['up', 'down', 'nearest'])),
      layers: maybe(layers),
      'round-robins': maybe(roundRobins),
      ...sound,
      when: maybe(when),
      releases: maybe(releases),
      legato: maybe(legato),
      measured: maybe(general.size),
    }),
  }) as const;

export type OutlineShapes = ReturnType<typeof shapesOf>;

/** What an articulation says itself: undefined where it says nothing, null where it is left open. */
export type Fields = v.InferOutput<OutlineShapes['articulation']>;
