import { doubtNames } from '../../../terms/doubt.ts';
import type { DroppedZone, KeptZone, Reason, Witness } from '../../plan.ts';
import { doubt } from './settings-shape.ts';
import {
  amount,
  byName,
  count,
  fromOne,
  group,
  list,
  oneOf,
  orNull,
  seven,
  text,
  type Shape,
} from './shape.ts';

export const witness = group<Witness>({
  cue: text,
  track: count,
  trackName: orNull(text),
  tick: count,
  bar: fromOne,
  beat: amount,
  seconds: amount,
  timecode: orNull(text),
  key: orNull(seven),
  velocity: orNull(seven),
});

const facts = {
  zone: count,
  key: orNull(text),
  samples: list(text),
  articulations: list(count),
  bytes: count,
} as const;

const reason: Shape<Reason> = oneOf(
  'played',
  ...doubtNames,
  'mutes',
  'linked',
  'pinned',
  'headroom',
  'grain',
);

export const keptZone = group<KeptZone>({
  ...facts,
  reasons: list(reason),
  doubts: list(list(doubt)),
  notes: count,
  cues: byName(count),
  witnesses: list(witness),
});

export const droppedZone = group<DroppedZone>(facts);
