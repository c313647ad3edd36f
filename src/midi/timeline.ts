import type { Division, MeterChange, TempoChange, Timeline } from './score.ts';

/** A moment of a cue as people name it. */
export interface Moment {
  /** From 1. */
  readonly bar: number;
  /** From 1, in the meter's unit, cut (not rounded) to three decimals, so a bar is never overrun. */
  readonly beat: number;
  /** From the start of the cue. */
  readonly seconds: number;
}

/** Look-ups in one timeline. Any tick from 0 on; each takes a binary search. */
export interface Clock {
  secondsAt(tick: number): number;
  placeAt(tick: number): Moment;
  /** Where a moment lies, 0 seconds or more: a whole tick where it is one, else between two. */
  tickAt(seconds: number): number;
}

/** Index of the last change at or before `tick`; the first change is at tick 0. */
const holding = (changes: readonly { readonly tick: number }[], tick: number): number => {
  let low = 0;
  let high = changes.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >>> 1;
    if ((changes[middle] as { readonly tick: number }).tick <= tick) low = middle;
    else high = middle - 1;
  }
  return low;
};

/** Index of the first of ascending values that is above `value`; their number where none is. */
const firstBehind = (values: Float64Array, value: number): number => {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (values[middle]! <= value) low = middle + 1;
    else high = middle;
  }
  return low;
};

/** Real frames a second: 29 stands for 30 drop frame (SMF 1.0, "Header Chunks"), 30000/1001. */
const frameRate = (framesPerSecond: number): number =>
  framesPerSecond === 29 ? 30_000 / 1_001 : framesPerSecond;

/**
 * Where a tick lies: in seconds, and in quarter notes times `per`. Ticks of a metrical division are
 * parts of a quarter note and tempo gives the seconds; ticks of an SMPTE division are parts of a
 * second and tempo gives the quarter notes.
 */
interface Position {
  seconds(tick: number): number;
  /** The other way round. */
  tick(seconds: number): number;
  quarters(tick: number): number;
  readonly per: number;
}

const metrical = (ticksPerQuarter: number, tempo: readonly TempoChange[]): Position => {
  // Sums of ticks times microseconds are whole numbers: nothing is lost however many changes.
  const before = new Float64Array(tempo.length);
  tempo.forEach((change, index) => {
    const next = tempo[index + 1];
    if (next === undefined) return;
    const elapsed = (next.tick - change.tick) * change.microsecondsPerQuarter;
    before[index + 1] = (before[index] as number) + elapsed;
  });
  return {
    seconds(tick) {
      const index = holding(tempo, tick);
      const change = tempo[index] as TempoChange;
      const elapsed = (tick - change.tick) * change.microsecondsPerQuarter;
      return ((before[index] as number) + elapsed) / (ticksPerQuarter * 1e6);
    },
    tick(seconds) {
      const elapsed = seconds * ticksPerQuarter * 1e6;
      const index = Math.max(0, firstBehind(before, elapsed) - 1);
      const change = tempo[index] as TempoChange;
      return change.tick + (elapsed - (before[index] as number)) / change.microsecondsPerQuarter;
    },
    quarters: (tick) => tick,
    per: ticksPerQuarter,
  };
};

const smpte = (ticksPerSecond: number, tempo: readonly TempoChange[]): Position => {
  const before = new Float64Array(tempo.length);
  const since = (change: TempoChange, tick: number): number =>
    ((tick - change.tick) / ticksPerSecond) * (1e6 / change.microsecondsPerQuarter);
  tempo.forEach((change, index) => {
    const next = tempo[index + 1];
    if (next === undefined) return;
    before[index + 1] = (before[index] as number) + since(change, next.tick);
  });
  return {
    seconds: (tick) => tick / ticksPerSecond,
    tick: (seconds) => seconds * ticksPerSecond,
    quarters(tick) {
      const index = holding(tempo, tick);
      return (before[index] as number) + since(tempo[index] as TempoChange, tick);
    },
    per: 1,
  };
};

const positionIn = (division: Division, tempo: readonly TempoChange[]): Position =>
  division.kind === 'metrical'
    ? metrical(division.ticksPerQuarter, tempo)
    : smpte(frameRate(division.framesPerSecond) * division.ticksPerFrame, tempo);

/** Beats of a meter in a stretch of quarter notes. A whole number of ticks divides once: exactly. */
const beatsIn = (meter: MeterChange, quarters: number, per: number, scale: number): number =>
  (quarters * meter.unit * scale) / (4 * per);

/** What quarter notes of an SMPTE division, or ticks of a moment, may lack to a whole number. */
const margin = 1e-6;

/**
 * Look-ups in a timeline: seconds, bars and beats.
 *
 * A meter change begins a new bar, in the middle of a bar too. With an SMPTE division the seconds
 * come from the frames alone; bars and beats are those the file's tempo map (or 120 a minute) gives
 * over these seconds.
 */
export const clock = (timeline: Timeline): Clock => {
  const { meter } = timeline;
  const position = positionIn(timeline.division, timeline.tempo);
  const starts = Float64Array.from(meter, (change) => position.quarters(change.tick));
  const bars = new Float64Array(meter.length);
  meter.forEach((change, index) => {
    const next = starts[index + 1];
    if (next === undefined) return;
    const beats = beatsIn(change, next - (starts[index] as number), position.per, 1);
    bars[index + 1] = (bars[index] as number) + Math.ceil(beats / change.beats - margin / 1000);
  });

  return {
    secondsAt: (tick) => position.seconds(tick),
    tickAt(seconds) {
      const tick = position.tick(seconds);
      const whole = Math.round(tick);
      return Math.abs(tick - whole) < margin ? whole : tick;
    },
    placeAt(tick) {
      const index = holding(meter, tick);
      const change = meter[index] as MeterChange;
      const since = position.quarters(tick) - (starts[index] as number);
      const beats = Math.floor(beatsIn(change, since, position.per, 1000) + margin);
      const bar = change.beats * 1000;
      return {
        bar: (bars[index] as number) + Math.floor(beats / bar) + 1,
        beat: (1000 + (beats % bar)) / 1000,
        seconds: position.seconds(tick),
      };
    },
  };
};
