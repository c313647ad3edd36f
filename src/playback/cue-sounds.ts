import type { Instrument } from '../instruments/instrument.ts';
import type { Score, Timeline } from '../midi/score.ts';
import { holdsTick, secondsInto, type Stretches } from '../midi/stretches.ts';
import { clock, type Clock } from '../midi/timeline.ts';
import type { Routed, RoutedCopy } from '../template/routed.ts';
import { copyStream } from './copies.ts';
import { readsWithPedals } from './pedal-reads.ts';
import { lengthOf, programFor } from './play-cue.ts';
import { soundingOf } from './sounding.ts';
import { joinSpans, type TimeSpan } from './time-spans.ts';

/** When the instruments of a cue may sound, as one file of it has them. */
export interface CueFileSounds {
  /** Names its moments; null where the file could not be read. */
  readonly timeline: Timeline | null;
  /** What of the file is the cue; null: all of it. */
  readonly stretches: Stretches;
  /** How long the cue is here. */
  readonly seconds: number;
  readonly instruments: readonly InstrumentSounds[];
}

export interface InstrumentSounds {
  /** Of the instrument. */
  readonly id: string;
  /** Note-ons of the cue, of all its copies. */
  readonly notes: number;
  /**
   * When it may sound: seconds from the beginning of the cue, ascending and apart. Infinity: to the end
   * of the cue.
   */
  readonly spans: readonly TimeSpan[];
}

/**
 * When the instruments may sound that a cue file plays. Printed copies are left out: their tracks are
 * audio already. Instruments that an unreadable part of the file may have played sound from there on.
 *
 * @param instruments by id: all that `routed` names
 * @param unknown seconds that a sound goes on where its instrument does not say ({@link soundingOf})
 */
export const cueSounds = (
  score: Score,
  stretches: Stretches,
  { copies, tainted }: Pick<Routed, 'copies' | 'tainted'>,
  instruments: ReadonlyMap<string, Instrument>,
  unknown = Infinity,
): CueFileSounds => {
  const all = new Map<string, InstrumentSounds[]>();
  const add = (sounds: InstrumentSounds): void => {
    const own = all.get(sounds.id);
    if (own === undefined) all.set(sounds.id, [sounds]);
    else own.push(sounds);
  };
  for (const copy of copies) {
    if (!copy.printed) add(copySounds(score, stretches, copy, instruments, unknown));
  }
  const timeline = score.timelines[0] ?? null;
  if (timeline !== null && tainted.length > 0) {
    const parts = partsOf(stretches, clock(timeline));
    const spans = within([{ from: firstUnread(score), to: Infinity }], parts);
    for (const id of tainted) add({ id, notes: 0, spans });
  }
  return {
    timeline,
    stretches,
    seconds: timeline === null ? 0 : secondsOf(score, timeline, stretches),
    instruments: [...all]
      .map(([id, own]) => ({
        id,
        notes: own.reduce((sum, { notes }) => sum + notes, 0),
        spans: joinSpans(own.flatMap(({ spans }) => spans)),
      }))
      .filter(({ spans }) => spans.length > 0),
  };
};

/** A file that could not be read: all instruments may sound all the time. */
export const unreadableSounds = (ids: readonly string[]): CueFileSounds => ({
  timeline: null,
  stretches: null,
  seconds: 0,
  instruments: ids.map((id) => ({ id, notes: 0, spans: [{ from: 0, to: Infinity }] })),
});

const secondsOf = (score: Score, timeline: Timeline, stretches: Stretches): number =>
  stretches === null ? lengthOf(score) : secondsInto(stretches, clock(timeline), endOf(score));

const endOf = ({ tracks }: Score): number =>
  tracks.reduce((last, { end }) => Math.max(last, end), 0);

const copySounds = (
  score: Score,
  stretches: Stretches,
  copy: RoutedCopy,
  instruments: ReadonlyMap<string, Instrument>,
  unknown: number,
): InstrumentSounds => {
  const program = programFor(instruments.get(copy.instrument)!, copy.articulation);
  const stream = copyStream(score, copy, program, readsWithPedals(program));
  const parts = partsOf(stretches, clock(stream.timeline));
  const borders = [...new Set(parts.flatMap(({ from, to }) => [from, to]))];
  return {
    id: copy.instrument,
    notes: notesIn(stretches, stream),
    spans: joinSpans(within(soundingOf(program, stream, { unknown, borders }), parts)),
  };
};

/** The second from which on something of the file is unknown. */
const firstUnread = ({ missingTracks, tracks, timelines }: Score): number =>
  missingTracks > 0
    ? 0
    : tracks.reduce((first, { damage, timeline }) => {
        if (damage === null) return first;
        return Math.min(first, clock(timelines[timeline]!).secondsAt(damage.tick));
      }, Infinity);

/** In seconds of their file. */
const partsOf = (stretches: Stretches, time: Clock): readonly TimeSpan[] =>
  (stretches ?? [{ from: 0, to: null }]).map(({ from, to }) => ({
    from: time.secondsAt(from),
    to: to === null ? Infinity : time.secondsAt(to),
  }));

const notesIn = (
  stretches: Stretches,
  { length, notes, tick, status, data2 }: ReturnType<typeof copyStream>,
): number => {
  if (stretches === null) return notes;
  let count = 0;
  for (let at = 0; at < length; at++) {
    const strikes = status[at]! >> 4 === 0x9 && data2[at]! > 0;
    if (strikes && holdsTick(stretches, tick[at]!)) count++;
  }
  return count;
};

/** What of spans lies in the parts of a file, one part laid behind the other. */
const within = (spans: readonly TimeSpan[], parts: readonly TimeSpan[]): readonly TimeSpan[] => {
  let before = 0;
  return parts.flatMap((part) => {
    const shift = before - part.from;
    before += part.to - part.from;
    return spans.flatMap(({ from, to }) => {
      // What ends where the part begins is none of it, nor what begins where it ends.
      if (from >= part.to || (from < part.from && to <= part.from)) return [];
      return [{ from: Math.max(from, part.from) + shift, to: Math.min(to, part.to) + shift }];
    });
  });
};
