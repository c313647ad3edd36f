import type { Timeline } from './score.ts';

/**
 * Where a file begins in time code (FF 54; SMF 1.0, "SMPTE Offset"). All fields lie within their
 * ranges; a time that no clock shows makes none.
 */
export interface Timecode {
  /** Frames a second; 29 stands for 30 drop frame, as in the division of a file's header. */
  readonly rate: TimecodeRate;
  /** 0-23. */
  readonly hours: number;
  /** 0-59. */
  readonly minutes: number;
  /** 0-59. */
  readonly seconds: number;
  /** Below the rate, of 30 where the rate is 29. */
  readonly frames: number;
  /** Hundredths of a frame, 0-99. */
  readonly hundredths: number;
}

export type TimecodeRate = 24 | 25 | 29 | 30;

/** By bits 5 and 6 of the hour byte (MIDI Time Code, "Quarter Frame Messages": 00 24 … 11 30). */
const rates: readonly TimecodeRate[] = [24, 25, 29, 30];

/** Labels of a second: drop frame leaves some out, and no frame. */
const labelsOf = (rate: TimecodeRate): number => (rate === 29 ? 30 : rate);

/** Reads the five bytes of FF 54; null for a time that no clock shows. */
export const readTimecode = (
  hour: number,
  minutes: number,
  seconds: number,
  frames: number,
  hundredths: number,
): Timecode | null => {
  const rate = rates[(hour >> 5) & 3]!;
  const hours = hour & 0x1f;
  const isTime = hours < 24 && minutes < 60 && seconds < 60;
  if (!isTime || frames >= labelsOf(rate) || hundredths > 99) return null;
  return { rate, hours, minutes, seconds, frames, hundredths };
};

/** Frames that pass in a second of real time. */
const framesPerSecond = (rate: TimecodeRate): number => (rate === 29 ? 30_000 / 1_001 : rate);

const labelsPerMinute = 30 * 60;
/** Two labels are left out in nine minutes of ten. */
const framesPerMinute = labelsPerMinute - 2;
const framesPerTen = 10 * labelsPerMinute - 18;

/**
 * Frames from midnight to a label. Drop frame leaves out frames 0 and 1 of every minute that is no
 * tenth one (SMPTE ST 12-1, drop frame compensation); a label that is left out is the next one.
 */
const frameOf = ({ rate, hours, minutes, seconds, frames }: Timecode): number => {
  const minute = hours * 60 + minutes;
  const labels = (minute * 60 + seconds) * labelsOf(rate);
  if (rate !== 29) return labels + frames;
  const skipped = minute % 10 !== 0 && seconds === 0 ? Math.max(frames, 2) : frames;
  return labels + skipped - 2 * (minute - Math.floor(minute / 10));
};

/** The labels before that of a frame, those that are left out too. */
const labelOf = (frame: number, rate: TimecodeRate): number => {
  if (rate !== 29) return frame;
  const tens = Math.floor(frame / framesPerTen);
  const rest = frame - tens * framesPerTen;
  // The first minute of ten has all its labels.
  const more = rest < labelsPerMinute ? 0 : Math.floor((rest - 2) / framesPerMinute);
  return frame + 18 * tens + 2 * more;
};

const two = (value: number): string => String(value).padStart(2, '0');

/** What sums of seconds may lack to a whole frame. */
const margin = 1e-6;

/**
 * The time code at a moment of a timeline: that of its beginning (FF 54) and what has passed since, in
 * real time. A semicolon stands before the frames of drop frame (common practice); behind 23:59:59
 * comes 00:00:00. A file can't say that 24 and 30 run a thousandth slower, as they do beside pictures
 * of 23.976 and 29.97: they count 24 and 30 a second here.
 *
 * @param seconds from the beginning of the timeline, 0 or more
 * @returns `hh:mm:ss:ff`, or null where the file gives no time code
 */
export const timecodeAt = ({ timecode }: Timeline, seconds: number): string | null => {
  if (timecode === null) return null;
  const { rate, hundredths } = timecode;
  const passed = hundredths / 100 + seconds * framesPerSecond(rate);
  const label = labelOf(frameOf(timecode) + Math.floor(passed + margin), rate);
  const labels = labelsOf(rate);
  const second = Math.floor(label / labels);
  const [hh, mm, ss] = [Math.floor(second / 3600) % 24, Math.floor(second / 60) % 60, second % 60];
  return `${two(hh)}:${two(mm)}:${two(ss)}${rate === 29 ? ';' : ':'}${two(label % labels)}`;
};
