import type { Score, Timeline } from '../../midi/score.ts';
import { clock } from '../../midi/timeline.ts';
import { controllers, isDown } from '../../terms/controllers.ts';
import type { ExcerptEvents, ExcerptMessage } from '../lanes.ts';
import { settleOf } from '../synthesis/settle.ts';
import { chase } from './chase.ts';
import {
  arriving,
  excerptParts,
  isLift,
  isStrike,
  messagesOf,
  type CueMessage,
  type ExcerptCopy,
} from './excerpt-part.ts';

/** How long a key switch is held, in seconds. */
const press = 0.12;

/** How long a pedal may hold on behind the last note, in seconds. */
const mostPedal = 8;

/** Ticks of a cue, from `from` up to, not with, `to`. */
export interface TickStretch {
  readonly from: number;
  readonly to: number;
}

/**
 * Cuts a stretch of a cue out for some copies. What was set before it is set first, then come latched
 * key switches. Notes that began earlier are not in it; those that begin in it sound as long as they
 * do in the cue, and controllers move on until the last of them is over.
 *
 * @param copies what is wanted; all on one flow of time
 * @param slack seconds within which a switch and a note may stand in either order
 */
export const cutExcerpt = (
  score: Score,
  timeline: Timeline,
  copies: readonly ExcerptCopy[],
  stretch: TickStretch,
  slack = 0,
): ExcerptEvents => {
  const time = flow(timeline, stretch.from);
  const settings: CueMessage[] = [];
  const switches: CueMessage[] = [];
  const played: CueMessage[] = [];
  for (const one of copies) {
    const parts = excerptParts(score, one);
    const messages = messagesOf(score, parts);
    const chased = chase(messages, parts, one.program, stretch.from);
    settings.push(...chased.settings);
    switches.push(...chased.switches);
    played.push(...cut(messages, stretch, clock(timeline)));
  }
  const pressed = inOrder(eachOnce(switches));
  // Between what is set and what plays: far enough that no player takes both for one.
  const gap = settleOf(slack);
  const seconds = gap + pressed.length * press + gap;
  const lead = Math.ceil(seconds / time.secondsOfQuarter);
  const perSecond = 1 / time.secondsOfQuarter;
  const opening: ExcerptMessage[] = [
    ...eachOnce(settings).map((message) => placed(message, 0)),
    ...pressed.flatMap((message, i) => {
      const at = (gap + i * press) * perSecond;
      // It is up again before the next one goes down.
      const up = (gap + i * press + press * 0.9) * perSecond;
      const off = { ...message, status: 0x80 | (message.status & 0xf), data2: 64 };
      return [placed(message, at), placed(off, up)];
    }),
  ];
  const music = inOrder(eachOnce(played)).map((message) =>
    placed(message, lead + time.quartersAt(message.tick)),
  );
  const end = music.reduce((last, { quarter }) => Math.max(last, quarter), lead);
  const shift = ({ tick }: { readonly tick: number }): number =>
    tick <= stretch.from ? 0 : lead + time.quartersAt(tick);
  const until = music.length === 0 ? stretch.to : Math.max(stretch.to, lastTick(played));
  const tempo = during(timeline.tempo, stretch.from, until).map((change) => ({
    quarter: shift(change),
    microsecondsPerQuarter: time.isMetrical ? change.microsecondsPerQuarter : 500_000,
  }));
  const meters = during(timeline.meter, stretch.from, until);
  return {
    // What the next excerpt sets must not be taken for the last note of this one.
    length: Math.ceil(end) + 1 + (slack === 0 ? 0 : Math.ceil(gap / fastest(tempo))),
    tempo: time.isMetrical ? tempo : tempo.slice(0, 1),
    meter: [
      ...meters.slice(0, 1).flatMap(({ beats, unit }) => [
        { quarter: 0, beats, unit },
        // Its first bar begins with the music.
        { quarter: lead, beats, unit },
      ]),
      ...meters.slice(1).map((change) => ({
        quarter: shift(change),
        beats: change.beats,
        unit: change.unit,
      })),
    ],
    messages: [...opening, ...music],
  };
};

/** Seconds of the shortest quarter note. */
const fastest = (tempo: ExcerptEvents['tempo']): number =>
  Math.min(0.5, ...tempo.map(({ microsecondsPerQuarter }) => microsecondsPerQuarter / 1e6));

/** Quarter notes of a cue from a tick on. */
const flow = ({ division, tempo }: Timeline, from: number) => {
  if (division.kind === 'smpte') {
    // Ticks are parts of a second there: at 120 a quarter note is half of one.
    const { framesPerSecond, ticksPerFrame } = division;
    const rate = framesPerSecond === 29 ? 30_000 / 1_001 : framesPerSecond;
    const quartersAt = (tick: number): number => ((tick - from) / (rate * ticksPerFrame)) * 2;
    return { isMetrical: false, secondsOfQuarter: 0.5, quartersAt };
  }
  const first = tempo.findLast(({ tick }) => tick <= from) ?? tempo[0]!;
  return {
    isMetrical: true,
    secondsOfQuarter: first.microsecondsPerQuarter / 1e6,
    quartersAt: (tick: number) => (tick - from) / division.ticksPerQuarter,
  };
};

/** The change that holds at `from`, and those behind it before `to`. */
const during = <Change extends { readonly tick: number }>(
  changes: readonly Change[],
  from: number,
  to: number,
): readonly Change[] => {
  const first = changes.findLastIndex(({ tick }) => tick <= from);
  return changes.slice(Math.max(0, first)).filter(({ tick }) => tick < to);
};

const placed = ({ from, status, data1, data2 }: CueMessage, quarter: number): ExcerptMessage => ({
  quarter,
  track: from.to,
  port: from.part.port,
  message: { status, data1, data2 },
});

const pedals: readonly number[] = [controllers.sustain, controllers.sostenuto];

/** What of a copy's messages lies in the stretch, with the ends of its notes. */
const cut = (
  messages: readonly CueMessage[],
  { from, to }: TickStretch,
  { secondsAt }: Pick<ReturnType<typeof clock>, 'secondsAt'>,
): readonly CueMessage[] => {
  const found: CueMessage[] = [];
  const open = new Map<string, CueMessage[]>();
  const down = new Map<string, CueMessage>();
  let sounding = 0;
  let last = to;
  for (const message of messages) {
    if (message.tick < from) continue;
    const isOver = message.tick >= to && sounding === 0;
    if (isOver && (down.size === 0 || secondsAt(message.tick) > secondsAt(last) + mostPedal)) break;
    const key = `${String(message.from.part.track)} ${String(message.status & 0xf)} ${String(message.data1)}`;
    if (isStrike(message)) {
      if (message.tick >= to) continue;
      open.set(key, [...(open.get(key) ?? []), message]);
      sounding += 1;
    } else if (isLift(message)) {
      const own = open.get(key) ?? [];
      if (own.length === 0) continue;
      open.set(key, own.slice(1));
      sounding -= 1;
      last = Math.max(last, message.tick);
    } else if (message.status >> 4 === 0xb) {
      const number = arriving(message.from.transform, message.data1);
      if (pedals.includes(number)) {
        if (isDown(message.data2)) down.set(key, message);
        else down.delete(key);
      }
    }
    found.push(message);
  }
  const end = Math.max(last, ...found.slice(-1).map(({ tick }) => tick));
  const ends = [...open.values()].flat().map((message) => ({
    ...message,
    tick: end,
    status: 0x80 | (message.status & 0xf),
    data2: 64,
  }));
  return [
    ...found,
    ...ends,
    ...[...down.values()].map((message) => ({ ...message, tick: end, data2: 0 })),
  ];
};

const lastTick = (messages: readonly CueMessage[]): number =>
  messages.reduce((last, { tick }) => Math.max(last, tick), 0);

/** A track that drives two copies is there once. */
const eachOnce = (messages: readonly CueMessage[]): readonly CueMessage[] => [
  ...new Map(
    messages.map((message) => {
      const { from, event, status, data1, data2 } = message;
      return [[from.part.track, event, status, data1, data2].join(' '), message];
    }),
  ).values(),
];

/** As the file has them: by tick, then by track, then by place in the track. */
const inOrder = (messages: readonly CueMessage[]): readonly CueMessage[] =>
  [...messages].sort(
    (a, b) => a.tick - b.tick || a.from.part.track - b.from.part.track || a.event - b.event,
  );
