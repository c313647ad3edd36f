import type { Alternative } from '../../playback/alternatives.ts';
import type { ControllerRange } from '../../playback/controller-ranges.ts';
import type {
  Choice,
  CopyUsage,
  FileUsage,
  LeftCue,
  Moment,
  SourceUsage,
  UsageChoices,
  UsageClass,
  ZoneUsage,
} from '../../playback/zone-usage.ts';
import type {
  Routing,
  UnmappedParts,
  UnresolvedArticulation,
} from '../../template/routes/routing.ts';
import type { Timecode } from '../../midi/timecode.ts';
import type { MeterChange, TempoChange, Timeline } from '../../midi/score.ts';
import type { Stretch } from '../../midi/stretches.ts';
import { doubtNames } from '../../terms/doubt.ts';
import type { Finding, Place } from '../../terms/finding.ts';
import {
  all,
  either,
  fault,
  flag,
  list,
  number,
  object,
  oneOf,
  optional,
  orNull,
  record,
  row,
  text,
  whole,
  type Check,
} from './checks.ts';

/** Counts, ticks and bytes: whole numbers that a sum of many still holds exactly. */
const most = 2 ** 48;
const count = whole(0, most);
const index = whole(0, 2 ** 31);
const anyWhole = whole(Number.MIN_SAFE_INTEGER, Number.MAX_SAFE_INTEGER);
const doubt = whole(0, 2 ** doubtNames.length - 1);
const byte = whole(0, 127);
const seconds = number(0, most);

const digest: Check = (value) =>
  typeof value === 'string' && /^[\da-f]{64}$/.test(value) ? null : fault('text');

const range = (item: Check): Check =>
  all(row(item, item), (value) => {
    const [lo, hi] = value as readonly [number, number];
    return lo <= hi ? null : fault('order');
  });

/** A list that is not empty, by a rising tick; the first stands at 0. */
const changes = (item: Check): Check =>
  all(list(item), (value) => {
    const given = value as readonly { readonly tick: number }[];
    if (given[0]?.tick !== 0) return fault('order');
    const at = given.findIndex(({ tick }, i) => i > 0 && tick < given[i - 1]!.tick);
    return at < 0 ? null : fault('order', at);
  });

const tempo = object<TempoChange>({ tick: count, microsecondsPerQuarter: whole(1, 2 ** 24) });
const meter = object<MeterChange>({ tick: count, beats: whole(1, 255), unit: whole(1, 2 ** 31) });
const division = either(
  object({ kind: oneOf('metrical'), ticksPerQuarter: whole(1, 2 ** 15) }),
  object({
    kind: oneOf('smpte'),
    framesPerSecond: whole(1, 128),
    ticksPerFrame: whole(1, 255),
  }),
);

const timecode = object<Timecode>({
  rate: oneOf(24, 25, 29, 30),
  hours: whole(0, 23),
  minutes: whole(0, 59),
  seconds: whole(0, 59),
  frames: whole(0, 29),
  hundredths: whole(0, 99),
});

const timeline = object<Timeline>({
  division,
  tempo: changes(tempo),
  meter: changes(meter),
  markers: list(object({ tick: count, kind: oneOf('marker', 'cue-point'), text })),
  smpteOffset: orNull(text),
  timecode: orNull(timecode),
});

const alternative = object<Alternative>({
  value: either(oneOf('chosen', 'unchosen'), anyWhole),
  doubt,
});

const moment = object<Moment>({
  ranges: list(range(anyWhole)),
  doubt,
  after: orNull(seconds),
  hold: whole(-1, 2 ** 31),
});

/** Keys and velocities, but for a message: what that sets may be any number. */
const struck: Check = (value) => {
  const { event, key } = value as UsageClass;
  return event === 'change' || byte(key) === null ? null : fault('number', 'key');
};

const usageClass = all(
  object<UsageClass>({
    event: oneOf('note-on', 'note-off', 'release', 'restrike', 'cut', 'change'),
    signal: whole(-1, 2 ** 31),
    hold: whole(-1, 2 ** 31),
    channel: whole(0, 15),
    key: anyWhole,
    velocity: byte,
    state: index,
    life: whole(-1, 2 ** 31),
    doubt,
    count: whole(1, most),
    witnesses: all(list(row(index, count, count)), (value) =>
      (value as readonly unknown[]).length > 0 ? null : fault('list'),
    ),
  }),
  struck,
);

const copy = object<CopyUsage>({
  instrument: text,
  copy: text,
  articulation: orNull(text),
  printed: flag,
  notes: count,
  lostNotes: count,
  alternatives: list(list(alternative)),
  states: list(list(index)),
  lives: list(list(moment)),
  classes: list(usageClass),
  chosen: list(object<Choice>({ signal: index, channel: whole(-1, 15), values: list(anyWhole) })),
  controllers: list(object<ControllerRange>({ number: byte, range: range(byte) })),
  damaged: flag,
});

const version = orNull(whole(0, 999_999));

const file = object<FileUsage>({
  cue: text,
  path: text,
  sha256: digest,
  version,
  file: whole(0, 2 ** 20),
  stretches: orNull(list(object<Stretch>({ from: count, to: orNull(count) }))),
  parts: count,
  notes: count,
  seconds,
  music: seconds,
  state: oneOf('read', 'damaged', 'unreadable'),
  tainted: list(text),
  timelines: list(timeline),
  tracks: list(object({ name: orNull(text), timeline: index, notes: count })),
  copies: list(copy),
});

const place = object<Place>({
  track: optional(count),
  tick: optional(count),
  bar: optional(count),
  beat: optional(number(0, most)),
  byte: optional(count),
  line: optional(count),
  column: optional(count),
});

const finding = object<Finding>({
  code: text,
  severity: oneOf('error', 'warning', 'note'),
  file: orNull(text),
  at: orNull(place),
  args: record(() => null),
});

const routing = object<Routing>({
  names: list(text),
  deciding: list(index),
  beaten: list(object({ rule: index, by: index })),
  possible: list(index),
  unmapped: list(object<UnmappedParts>({ cue: text, tracks: list(orNull(text)), notes: count })),
  unresolved: list(
    object<UnresolvedArticulation>({
      rule: index,
      instrument: text,
      articulation: text,
      tracks: list(text),
      matches: count,
      near: orNull(text),
    }),
  ),
});

const source = object<SourceUsage>({
  path: text,
  sha256: digest,
  findings: list(finding),
  routing: record(routing),
});

/**
 * What a usage file holds, less its findings: those are for people and made anew. In it, `after` of a
 * moment is null where it is Infinity in memory (`stored.ts`).
 */
export const usageShape = object<ZoneUsage & { readonly findings: unknown }>({
  schema: oneOf('keepset/zone-usage@1'),
  template: orNull(digest),
  instruments: record(digest),
  controllerRooms: list(whole(1, 127)),
  everyPlace: flag,
  choices: object<UsageChoices>({
    without: list(text),
    newest: flag,
    acceptPartial: list(text),
    split: oneOf('markers', null),
  }),
  reel: list(text),
  leftOut: list(object<LeftCue>({ cue: text, path: text, version })),
  sources: record(source),
  files: record(file),
  findings: list(() => null),
});
