import { doubtNames } from '../../terms/doubt.ts';
import type { KeyPath } from '../../terms/findings/yaml.ts';
import type { Faults } from '../../notation/document/faults.ts';
import { exampleFor, type Vocabulary } from '../../notation/document/vocabulary.ts';
import type { Place } from '../../terms/finding.ts';
import { examples as like } from './examples.ts';
import { trackColumns } from '../routes/track-columns.ts';

/** Doubts that a template can answer: all but `damage`, which is accepted cue by cue. */
export const openDoubts = doubtNames.filter((name) => name !== 'damage');

const each = <Key extends string>(
  names: readonly Key[],
  example: (name: Key) => string,
): Readonly<Record<Key, string>> =>
  Object.fromEntries(names.map((name) => [name, example(name)])) as Record<Key, string>;

/**
 * Every key that a template may hold, by what it stands in, each with a line that may be pasted. What
 * people name themselves (machines, instruments, articulations) is not among them.
 */
export const keys = {
  template: {
    cues: like.cues,
    reel: like.reel,
    split: like.split,
    'middle-c': 'middle-c: C4',
    machines: like.machine,
    players: like.streamed,
    defaults: like.defaults,
    names: like.names,
    instruments: like.bank,
    routes: like.rule,
    tracks: like.tracks,
    columns: like.columns,
    slack: like.slack,
    settle: like.settle,
    headroom: like.headroom,
    pins: like.pin,
  },
  machine: each(['memory', 'reserve'], () => like.machine),
  player: {
    loads: like.whole,
    head: like.streamed,
    width: like.width,
    factor: like.fitted,
    'per-zone': like.overhead,
    'per-copy': like.overhead,
    'load-rate': like.loading,
    shares: like.whole,
    unloads: like.whole,
  },
  defaults: each(['player', 'machine'], () => like.defaults),
  instrument: {
    file: like.bank,
    zones: like.table,
    outline: like.outline,
    microphones: like.microphones,
    preset: like.bank,
    'middle-c': like.table,
    machine: like.assigned,
    player: like.assigned,
    settle: like.settled,
    measured: like.measured,
  },
  rule: {
    track: like.rule,
    join: like.joined,
    cue: like.chosen,
    port: like.chosen,
    channel: like.chosen,
    instrument: like.rule,
    articulation: like.fixed,
    transpose: like.changed,
    velocity: like.changed,
    controllers: like.changed,
    printed: like.printed,
    ignore: like.ignored,
  },
  tracks: { file: 'tracks: { file: tracks.csv }' },
  columns: each(trackColumns, (name) => `columns: { ${name}: "Heading in the table" }`),
  settle: each(openDoubts, (name) => `settle: { ${name}: plain }`),
  headroom: each(['keys', 'velocity', 'controller'], () => like.headroom),
  pin: each(['instrument', 'articulation', 'keys', 'velocities'], () => like.pin),
} as const;

/** Something in a template that has keys of its own. */
export type Kind = keyof typeof keys;

/** What the entries of the lists and groups at the top are. */
const within: ReadonlyMap<unknown, Kind> = new Map<unknown, Kind>([
  ['machines', 'machine'],
  ['players', 'player'],
  ['instruments', 'instrument'],
  ['routes', 'rule'],
  ['pins', 'pin'],
]);

/** What stands at a path, or null for what has no keys of its own or whose keys people name. */
export const kindAt = (path: KeyPath): Kind | null => {
  const [top, , key] = path;
  if (path.length === 0) return 'template';
  if (path.length === 1) {
    return top === 'defaults' ||
      top === 'tracks' ||
      top === 'columns' ||
      top === 'settle' ||
      top === 'headroom'
      ? top
      : null;
  }
  if (path.length === 2) return within.get(top) ?? null;
  return path.length === 3 && top === 'instruments' && key === 'settle' ? 'settle' : null;
};

/** Keys that a template knows and does not take here. */
const refuses = (faults: Faults, path: KeyPath, key: string, at: Place): boolean => {
  if (kindAt(path) !== 'settle' || key !== 'damage') return false;
  faults.add(at, 'template-settle-damage', () => ({}));
  return true;
};

/** How templates are written. */
export const templateVocabulary: Vocabulary = {
  document: 'template',
  keysAt: (path) => {
    const kind = kindAt(path);
    return kind === null ? null : keys[kind];
  },
  example: like.rule,
  refuses,
  unitOf: (expected, key, number) => {
    if (expected === 'width') return [16, 24, 32].includes(number) ? 'bit' : null;
    if (expected === 'size' && key === 'per-zone') return 'B';
    if (expected === 'size' && key === 'per-copy') return 'MiB';
    return units.get(expected) ?? null;
  },
};

/** The unit that is most likely meant where a number has none. */
const units: ReadonlyMap<string, string> = new Map([
  ['slack', 'ms'],
  ['head', 'KiB'],
  ['byte-rate', 'MB/s'],
  ['size', 'GiB'],
]);

/** A line that may be pasted for what stands at `path`, or for the nearest thing around it. */
export const exampleAt = (path: KeyPath): string => exampleFor(templateVocabulary, path);
