import {
  exampleFor,
  type KnownKeys,
  type Vocabulary,
} from '../../../notation/document/vocabulary.ts';
import type { KeyPath } from '../../../terms/findings/yaml.ts';
import { examples as like } from './examples.ts';

/** Every key that an outline may hold, by what it stands in, each with a line that may be pasted. */
export const keys = {
  outline: {
    'middle-c': like.middleC,
    rate: like.rate,
    bits: like.bits,
    channels: like.channels,
    seconds: like.seconds,
    microphones: like.microphones,
    switches: like.switches,
    measured: like.measured,
    articulations: like.name,
  },
  switches: { from: like.switches, names: like.switches },
  measured: { empty: like.measured, full: like.measured },
  articulation: {
    like: like.like,
    switch: like.name,
    keys: like.name,
    sampled: like.sampled,
    stretch: like.sampled,
    layers: like.layers,
    'round-robins': like.roundRobins,
    seconds: like.sized,
    rate: like.sized,
    bits: like.sized,
    channels: like.sized,
    microphones: like.placed,
    when: like.when,
    releases: like.releases,
    legato: like.legato,
    measured: like.shown,
  },
  roundRobins: { count: like.roundRobins, borrow: like.roundRobins },
  when: { velocity: like.when, controllers: like.when, pressure: like.when, held: like.when },
  releases: {
    seconds: like.releases,
    at: like.releases,
    'round-robins': like.releases,
    layers: like.releases,
    measured: like.releases,
  },
  legato: {
    intervals: like.legato,
    seconds: like.legato,
    overlap: like.legato,
    returns: like.legato,
    layers: like.legato,
    'round-robins': like.legato,
    measured: like.legato,
  },
} as const;

/** Groups within an articulation. */
const within: ReadonlyMap<unknown, KnownKeys> = new Map<unknown, KnownKeys>([
  ['round-robins', keys.roundRobins],
  ['when', keys.when],
  ['releases', keys.releases],
  ['legato', keys.legato],
]);

const keysAt = (path: KeyPath): KnownKeys | null => {
  const [top, , key, inner] = path;
  if (path.length === 0) return keys.outline;
  if (path.length === 1) {
    return top === 'switches' || top === 'measured' ? keys[top] : null;
  }
  if (top !== 'articulations') return null;
  if (path.length === 2) return keys.articulation;
  if (path.length === 3) return within.get(key) ?? null;
  const isPart = path.length === 4 && (key === 'releases' || key === 'legato');
  return isPart && inner === 'round-robins' ? keys.roundRobins : null;
};

/** How outlines are written. */
export const outlineVocabulary: Vocabulary = {
  document: 'outline',
  keysAt,
  example: like.name,
  refuses: () => false,
  unitOf: (expected, key) => {
    if (expected === 'overlap') return 'ms';
    if (expected !== 'size') return null;
    return key === 'empty' || key === 'full' ? 'GiB' : 'MiB';
  },
};

/** A line that may be pasted for what stands at `path`, or for the nearest thing around it. */
export const exampleAt = (path: KeyPath): string => exampleFor(outlineVocabulary, path);
