import * as v from 'valibot';
import * as general from '../../notation/document/leaves.ts';
import { keys } from './keys.ts';
import * as leaf from './leaves.ts';
import { group, list, named, oneOrMore } from '../../notation/document/shape-of.ts';
import type { YamlNode } from '../../notation/yaml/tree.ts';

const { exactOptional, optional } = v;

const answer = exactOptional(general.choice(['plain', 'accept']));
const settle = group(keys.settle, {
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
const room = optional(general.whole(0, 127));
const heading = exactOptional(general.text);
const tracksFile = group(keys.tracks, { file: leaf.tablePath });
const tracksPath = v.pipe(
  leaf.tablePath,
  v.transform((file) => ({ file })),
);

/** What may stand where in a template, but for what its parts must agree on with each other. */
export const shapes = {
  cues: oneOrMore(leaf.cuePath),
  reel: list(general.text),
  split: general.choice(['markers']),
  middleC: general.middleC,
  machine: group(keys.machine, { memory: general.size, reserve: optional(general.size) }),
  player: group(keys.player, {
    loads: general.choice(['whole', 'streamed']),
    head: optional(leaf.head),
    width: optional(leaf.width),
    factor: optional(leaf.sampleFactor),
    'per-zone': optional(general.size),
    'per-copy': optional(general.size),
    'load-rate': optional(leaf.byteRate),
    shares: general.choice(['copy', 'machine']),
    unloads: general.choice(['sample', 'layer', 'articulation', 'microphone', 'instrument']),
  }),
  defaults: group(keys.defaults, {
    player: optional(general.text),
    machine: optional(general.text),
  }),
  articulation: general.text,
  instrument: group(keys.instrument, {
    file: optional(leaf.bankPath),
    zones: optional(leaf.tablePath),
    outline: optional(leaf.outlinePath),
    microphones: optional(
      v.pipe(
        oneOrMore(general.text),
        v.check((names) => names.length > 0, 'microphones'),
      ),
    ),
    preset: optional(leaf.preset),
    'middle-c': optional(general.middleC),
    machine: optional(general.text),
    player: optional(general.text),
    settle: optional(settle),
    measured: optional(named(v.string(), general.size)),
  }),
  rule: group(keys.rule, {
    track: optional(oneOrMore(leaf.pattern)),
    join: optional(list(leaf.pattern)),
    cue: optional(leaf.pattern),
    port: optional(general.whole(1, 128)),
    channel: optional(general.whole(1, 16)),
    instrument: optional(oneOrMore(general.text)),
    articulation: optional(general.text),
    transpose: optional(general.whole(-127, 127)),
    velocity: optional(leaf.velocityFactor),
    controllers: optional(named(controller, general.whole(0, 127))),
    printed: optional(leaf.flag),
    ignore: optional(leaf.flag),
  }),
  tracks: v.lazy((node: unknown) => ((node as YamlNode).kind === 'map' ? tracksFile : tracksPath)),
  columns: group(keys.columns, {
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
  headroom: group(keys.headroom, { keys: room, velocity: room, controller: room }),
  pin: group(keys.pin, {
    instrument: general.text,
    articulation: optional(general.text),
    keys: optional(general.text),
    velocities: optional(general.velocities),
  }),
} as const;
