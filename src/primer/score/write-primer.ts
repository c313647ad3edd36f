import { writeMidi } from 'midi-file';
import type { ExcerptEvents, PrimerInput, PrimerTrack, WrittenPrimer } from '../lanes.ts';
import { channelEvent, heading, remark, type Placeless } from './midi-event.ts';
import { schedule, type TickedMessage } from './schedule.ts';

/** Microseconds of a quarter note at 120. */
const usualTempo = 500_000;

/** Rests between the notes, each excerpt and the end, in quarter notes. */
const rest = 2;

/** An event on a tick of a track; null: of no port. */
interface Placed {
  readonly tick: number;
  readonly track: number;
  readonly port: number | null;
  readonly event: Placeless;
}

/**
 * The Standard MIDI File of a primer: the tracks of the base, the notes of all machines at 120 and 4/4,
 * then excerpts bar by bar with their own tempo and meter, then all put back.
 */
export const writePrimer = (input: PrimerInput): WrittenPrimer => {
  const { ticksPerQuarter, syntheses, pace, tracks } = input;
  const perSecond = ticksPerQuarter * 2;
  const bar = ticksPerQuarter * 4;
  const notes = schedule(syntheses, pace, perSecond, ticksPerQuarter);
  const placed: Placed[] = [...opening(input.text), ...notes.messages.map(channelMessage)];
  let tick = Math.ceil((notes.end + rest * ticksPerQuarter) / bar) * bar;
  let seconds = tick / perSecond;
  const excerptsAt: number[] = [];
  for (const excerpt of input.excerpts) {
    excerptsAt.push(round(seconds));
    placed.push(...excerptEvents(excerpt, tick, ticksPerQuarter));
    const length = wholeBars(excerpt);
    seconds += secondsOf(excerpt, length);
    tick += Math.round(length * ticksPerQuarter);
  }
  if (input.excerpts.length > 0) placed.push(...usualTime(tick));
  const restore = [...syntheses.flatMap((one) => one.restore), ...(input.restore ?? [])];
  let last = 0;
  for (const message of restore) {
    last = Math.max(last, message.seconds);
    placed.push(
      channelMessage({ ...message, tick: tick + Math.round(message.seconds * perSecond) }),
    );
  }
  const lead = Math.ceil((last + 1) * perSecond);
  const bytes = fileOf(input.format, ticksPerQuarter, tracks, placed, tick + lead);
  const struck = input.excerpts.flatMap(({ messages }) => messages).filter(isStrike);
  return {
    bytes,
    seconds: round(seconds + lead / perSecond),
    notes: notes.notes + struck.length,
    excerptsAt,
    machines: new Map(
      [...notes.machines].map(([machine, ticks]) => [machine, round(ticks / perSecond)]),
    ),
  };
};

const round = (seconds: number): number => Math.round(seconds * 1000) / 1000;

const opening = (text: string): readonly Placed[] => [
  { tick: 0, track: 0, port: null, event: remark(text) },
  ...usualTime(0),
];

const usualTime = (tick: number): readonly Placed[] => [
  { tick, track: 0, port: null, event: meterEvent(4, 4) },
  { tick, track: 0, port: null, event: tempoEvent(usualTempo) },
];

const tempoEvent = (microsecondsPerBeat: number): Placeless => ({
  type: 'setTempo',
  microsecondsPerBeat: Math.round(microsecondsPerBeat),
});

const meterEvent = (numerator: number, denominator: number): Placeless => ({
  ...{ type: 'timeSignature', numerator, denominator, metronome: 24, thirtyseconds: 8 },
});

const channelMessage = ({ tick, lane, status, data1, data2 }: TickedMessage): Placed => ({
  tick,
  track: lane.track,
  port: lane.port,
  event: channelEvent(status, data1, data2),
});

const excerptEvents = (
  { tempo, meter, messages }: ExcerptEvents,
  begin: number,
  ticksPerQuarter: number,
): readonly Placed[] => {
  const at = (quarter: number): number => begin + Math.round(quarter * ticksPerQuarter);
  return [
    ...meter.map(({ quarter, beats, unit }) => ({
      ...{ tick: at(quarter), track: 0, port: null, event: meterEvent(beats, unit) },
    })),
    ...tempo.map(({ quarter, microsecondsPerQuarter }) => ({
      ...{ tick: at(quarter), track: 0, port: null, event: tempoEvent(microsecondsPerQuarter) },
    })),
    ...messages.map(({ quarter, track, port, message }): Placed => ({
      tick: at(quarter),
      track,
      port,
      event:
        'data' in message
          ? { type: 'sysEx', data: [...message.data, 0xf7] }
          : channelEvent(message.status, message.data1, message.data2),
    })),
  ];
};

/** Its length in quarter notes up to the end of a bar, so that what follows begins on a bar line. */
const wholeBars = ({ length, meter }: ExcerptEvents): number => {
  const { quarter, beats, unit } = meter.at(-1) ?? { quarter: 0, beats: 4, unit: 4 };
  const bar = (beats * 4) / unit;
  return quarter + Math.max(1, Math.ceil((length - quarter) / bar - 1e-9)) * bar;
};

const secondsOf = ({ tempo }: ExcerptEvents, length: number): number => {
  const changes =
    tempo[0]?.quarter === 0
      ? tempo
      : [{ quarter: 0, microsecondsPerQuarter: usualTempo }, ...tempo];
  return changes.reduce((sum, { quarter, microsecondsPerQuarter }, i) => {
    const to = Math.min(length, changes[i + 1]?.quarter ?? length);
    return sum + (Math.max(0, to - quarter) * microsecondsPerQuarter) / 1e6;
  }, 0);
};

const isStrike = ({ message }: ExcerptEvents['messages'][number]): boolean =>
  'status' in message && message.status >> 4 === 9 && message.data2 > 0;

const fileOf = (
  format: 0 | 1,
  ticksPerBeat: number,
  tracks: readonly PrimerTrack[],
  placed: readonly Placed[],
  end: number,
): Uint8Array => {
  const own = tracks.map(() => [] as Placed[]);
  for (const one of placed) own[one.track]!.push(one);
  const written = own.map((events, index) => {
    const track = tracks[index]!;
    let tick = 0;
    let { port } = track;
    const made = heading(track).map((event) => ({ ...event, deltaTime: 0 }));
    for (const one of events.sort((a, b) => a.tick - b.tick)) {
      if (one.port !== null && one.port !== port) {
        ({ port } = one);
        made.push({ type: 'portPrefix', port, deltaTime: one.tick - tick });
        ({ tick } = one);
      }
      made.push({ ...one.event, deltaTime: one.tick - tick });
      ({ tick } = one);
    }
    made.push({ type: 'endOfTrack', deltaTime: Math.max(0, end - tick) });
    return made;
  });
  const header = { format, numTracks: written.length, ticksPerBeat };
  return Uint8Array.from(writeMidi({ header, tracks: written }, { running: true }));
};
