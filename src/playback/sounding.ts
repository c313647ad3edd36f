import type { Program, Signal } from '../instruments/program.ts';
import { clock } from '../midi/timeline.ts';
import { controllers, isDown } from '../terms/controllers.ts';
import { contains } from '../terms/range.ts';
import { sysexStatus, type CopyStream } from './copy-stream.ts';
import { HeldStretch } from './held-stretch.ts';
import { distinctReadings } from './pedals.ts';
import { soundLengths, type SoundLengths } from './sound-lengths.ts';
import { joinSpans, type TimeSpan } from './time-spans.ts';

export interface SoundingOptions {
  /**
   * Seconds that a sound goes on by itself where the instrument does not say. Infinity, unless given: to
   * the end of the cue.
   */
  readonly unknown?: number;
  /**
   * Where cues begin and end that share the file: seconds, ascending. What sounds to the end of its cue
   * ends at the next of them.
   */
  readonly borders?: readonly number[];
}

/**
 * The stretches in which a copy may sound, ascending and apart, in seconds of its file. They are
 * cautious: between them the copy is silent however its doubts are settled, whichever zones play.
 *
 * A note lasts at least until its key is up and every pedal, as any hold and any reading has it, has let
 * go; and from there as long as the longest of all zones. A note that never ends sounds for ever
 * (Infinity). A key that plays nothing counts as long as it is down, and no pedal holds it: it is no
 * sound, but a switch is lost on an instrument that is not there. Controllers, program changes and
 * system exclusive messages do not count, unless they start a zone: who loads an instrument within a cue
 * has to send again what it was set to.
 *
 * @param stream with the program's pedals, whether or not they decide what plays
 */
export const soundingOf = (
  program: Program,
  stream: CopyStream,
  { unknown = Infinity, borders = [] }: SoundingOptions = {},
): readonly TimeSpan[] => new SoundingWalk(program, stream, unknown, borders).spans();

/** Up to, not with, or behind a border that lies on the moment itself. */
type Side = 'before' | 'behind';

class SoundingWalk {
  readonly #signals: readonly Signal[];
  readonly #stream: CopyStream;
  readonly #lengths: SoundLengths;
  readonly #borders: readonly number[];
  readonly #scopes: readonly HeldStretch[];
  /** Keys may sound as others: any of them may play. */
  readonly #anyPlays: boolean;
  /** Keys end by their own note-offs alone. */
  readonly #isLoose: boolean;
  readonly #found: TimeSpan[] = [];

  constructor(program: Program, stream: CopyStream, unknown: number, borders: readonly number[]) {
    this.#signals = program.signals;
    this.#stream = stream;
    this.#borders = borders;
    const lengths = soundLengths(program, unknown);
    this.#lengths = lengths;
    const isShared = program.scope === 'copy';
    const readings = [...lengths.holds].flatMap((hold) =>
      distinctReadings(program.holds[hold]!.pedals, stream, isShared),
    );
    const scopes = isShared ? 1 : 16;
    this.#scopes = Array.from({ length: scopes }, () => new HeldStretch(readings));
    this.#anyPlays = stream.sysex.length > 0 || some(stream, isTuning);
    // A synthesiser may go back to any key whose own note-off has not come.
    this.#isLoose = program.retriggers && some(stream, isOneNoteMode);
  }

  spans(): readonly TimeSpan[] {
    const { tick, status, data1, data2, length, timeline } = this.#stream;
    const time = clock(timeline);
    for (let from = 0; from < length;) {
      const seconds = time.secondsAt(tick[from]!);
      let to = from;
      for (; to < length && tick[to] === tick[from]; to++) {
        const byte = status[to]!;
        if (byte !== sysexStatus) {
          this.#event(byte >> 4, byte & 0x0f, data1[to]!, data2[to]!, seconds);
        }
      }
      // Events of one tick may come in any order: a pedal that moves with a note-off may hold it.
      for (const scope of this.#scopes) if (scope.isOver) this.#close(scope, seconds);
      from = to;
    }
    for (const { begin } of this.#scopes) {
      if (begin !== null) this.#found.push({ from: begin, to: Infinity });
    }
    return joinSpans(this.#found);
  }

  #event(kind: number, channel: number, data1: number, data2: number, seconds: number): void {
    const scope = this.#scopes[this.#scopes.length === 1 ? 0 : channel]!;
    if (kind === 0x9 && data2 > 0) {
      const plays = this.#anyPlays || this.#lengths.plays[data1] === 1;
      scope.strike(channel, data1, plays, seconds);
      if (plays) this.#add(seconds, seconds, this.#lengths.fromStrike, 'behind');
      return;
    }
    if (kind === 0x8 || kind === 0x9) {
      scope.lift(channel, data1);
      // What the player goes back to then begins anew.
      if (this.#isLoose) this.#add(seconds, seconds, this.#lengths.fromStrike, 'behind');
      return;
    }
    this.#change(kind, data1, data2, seconds);
    if (kind !== 0xb) return;
    scope.controller(data1, data2);
    if (endsNotes.has(data1) && !this.#isLoose) scope.liftAll(channel);
  }

  /** What the message starts. */
  #change(kind: number, data1: number, data2: number, seconds: number): void {
    for (const { signal, start, seconds: length } of this.#lengths.changes) {
      const value = valueOf(this.#signals[signal]!, kind, data1, data2);
      if (value === null || !contains(start.keys, value)) continue;
      this.#add(seconds, seconds, length, 'behind');
    }
  }

  #close(scope: HeldStretch, seconds: number): void {
    const length = scope.plays ? this.#lengths.fromRelease : 0;
    this.#add(scope.begin!, seconds, length, 'before');
    scope.clear();
  }

  /** From `from` until `length` seconds behind `since`. */
  #add(from: number, since: number, length: number, side: Side): void {
    const to = length === Infinity ? this.#endOfCue(since, side) : since + length;
    this.#found.push({ from, to });
  }

  #endOfCue(seconds: number, side: Side): number {
    const isNext = (border: number): boolean =>
      side === 'before' ? border >= seconds : border > seconds;
    return this.#borders.find(isNext) ?? Infinity;
  }
}

/** Messages upon which all keys of a channel go up (MIDI 1.0, "Channel Mode Messages"). */
const endsNotes: ReadonlySet<number> = new Set([
  controllers.allSoundOff,
  controllers.allNotesOff,
  controllers.omniOff,
  controllers.omniOn,
  controllers.monoOn,
  controllers.polyOn,
]);

/** What a message sets a signal to; null where it does not. */
const valueOf = (signal: Signal, kind: number, data1: number, data2: number): number | null => {
  switch (signal.kind) {
    case 'controller':
      return kind === 0xb && signal.number === data1 ? data2 : null;
    case 'poly-pressure':
      return kind === 0xa ? data2 : null;
    case 'pressure':
      return kind === 0xd ? data1 : null;
    case 'bend':
      return kind === 0xe ? data2 * 128 + data1 - 8192 : null;
    default:
      return null;
  }
};

const entries: ReadonlySet<number> = new Set([
  controllers.dataEntryMsb,
  controllers.dataEntryLsb,
  controllers.dataIncrement,
  controllers.dataDecrement,
]);

const isTuning = (number: number): boolean => entries.has(number);

const isOneNoteMode = (number: number, value: number): boolean =>
  number === controllers.monoOn || (number === controllers.legato && isDown(value));

const some = (
  { length, status, data1, data2 }: CopyStream,
  is: (number: number, value: number) => boolean,
): boolean => {
  for (let at = 0; at < length; at++) {
    if (status[at]! >> 4 === 0xb && is(data1[at]!, data2[at]!)) return true;
  }
  return false;
};
