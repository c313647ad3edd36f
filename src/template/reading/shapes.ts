import * as v from 'valibot';
import * as leaf from './leaves.ts';
import { group, list, named, oneOrMore } from './shape-of.ts';
import type { YamlNode } from './yaml/tree.ts';

const { exactOptional, optional } = v;

const answer = exactOptional(leaf.choice(['plain', 'accept']));
const settle = group('settle', {
  'start-state': answer,
  'no-switch': answer,
  order: answer,
  slack: answer,
  smoothing: answer,
  tail: answer,
  'pedal-held': answer,
  engine: answer,
  stretch: answer,
});

const controller = v.pipe(
  v.string(),
  v.check((key) => /^(?:\d|[1-9]\d|1[01]\d|12[0-7])$/u.test(key), 'controller'),
  v.transform(Number),
);
const room = optional(leaf.whole(0, 127));
const heading = exactOptional(leaf.text);
const tracksFile = group('tracks', { file: leaf.tablePath });
const tracksPath = v.pipe(
  leaf.tablePath,
  v.transform((file) => ({ file })),
);

/** What may stand where in a template, but for what its parts must agree on with each other. */
export const shapes = {
  cues: oneOrMore(leaf.cuePath),
  reel: list(leaf.text),
  split: leaf.choice(['markers']),
  middleC: leaf.middleC,
  machine: group('machine', { memory: leaf.size, reserve: optional(leaf.size) }),
  player: group('player', {
    loads: leaf.choice(['whole', 'streamed']),
    head: optional(leaf.head),
    width: optional(leaf.width),
    factor: optional(leaf.sampleFactor),
    'per-zone': optional(leaf.size),
    'per-copy': optional(leaf.size),
    'load-rate': optional(leaf.byteRate),
    shares: leaf.choice(['copy', 'machine']),
    unloads: leaf.choice(['sample', 'layer', 'articulation', 'microphone', 'instrument']),
  }),
  defaults: group('defaults', { player: optional(leaf.text), machine: optional(leaf.text) }),
  articulation: leaf.text,
  instrument: group('instrument', {
    file: optional(leaf.bankPath),
    zones: optional(leaf.tablePath),
    preset: optional(leaf.preset),
    'middle-c': optional(leaf.middleC),
    machine: optional(leaf.text),
    player: optional(leaf.text),
    settle: optional(settle),
    measured: optional(named(v.string(), leaf.size)),
  }),
  rule: group('rule', {
    track: optional(oneOrMore(leaf.pattern)),
    join: optional(list(leaf.pattern)),
    cue: optional(leaf.pattern),
    port: optional(leaf.whole(1, 128)),
    channel: optional(leaf.whole(1, 16)),
    instrument: optional(oneOrMore(leaf.text)),
    articulation: optional(leaf.text),
    transpose: optional(leaf.whole(-127, 127)),
    velocity: optional(leaf.velocityFactor),
    controllers: optional(named(controller, leaf.whole(0, 127))),
    printed: optional(leaf.flag),
    ignore: optional(leaf.flag),
  }),
  tracks: v.lazy((node: unknown) => ((node as YamlNode).kind === 'map' ? tracksFile : tracksPath)),
  columns: group('columns', {
    track: heading,
    cue: heading,
    port: heading,
    channel: heading,
    instrument: heading,
    articulation: heading,
    join: heading,
    transpose: heading,
    velocity: heading,
    controllers: heading,
    printed: heading,
    ignore: heading,
  }),
  slack: leaf.slack,
  settle,
  headroom: group('headroom', { keys: room, velocity: room, controller: room }),
  pin: group('pin', {
    instrument: leaf.text,
    articulation: optional(leaf.text),
    keys: optional(leaf.text),
    velocities: optional(leaf.velocities),
  }),
} as const;
