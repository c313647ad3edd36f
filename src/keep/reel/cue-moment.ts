import type { Stretches } from '../../midi/stretches.ts';
import { timecodeAt } from '../../midi/timecode.ts';
import { clock, type Clock } from '../../midi/timeline.ts';
import type { CueFileSounds } from '../../playback/cue-sounds.ts';
import type { CueMoment } from './reel-memory.ts';

/** Names the moment that lies so many seconds behind the beginning of a cue. */
export type MomentNamer = (seconds: number) => CueMoment;

const rounded = (seconds: number): number => Math.round(seconds * 1000) / 1000;

/** What there is to say of a cue of which nothing could be read. */
const nameless: MomentNamer = (seconds) => ({
  bar: 1,
  beat: 1,
  seconds: rounded(seconds),
  timecode: null,
});

/**
 * Names moments as witnesses are named: bars, beats and seconds are those of the file, and so count from
 * its beginning where the cue is a part of it.
 */
export const momentNamer = (
  files: readonly Pick<CueFileSounds, 'timeline' | 'stretches'>[],
): MomentNamer => {
  const read = files.filter(({ timeline }) => timeline !== null);
  const file = read.find(({ timeline }) => timeline!.timecode !== null) ?? read[0];
  if (file === undefined) return nameless;
  const timeline = file.timeline!;
  const time = clock(timeline);
  return (into) => {
    const at = inFile(file.stretches, time, into);
    const { bar, beat, seconds } = time.placeAt(time.tickAt(at));
    return {
      bar,
      beat,
      seconds: rounded(seconds),
      timecode: timecodeAt(timeline, seconds),
    };
  };
};

/** What sums of seconds may lack to the end of a stretch. */
const margin = 1e-9;

/**
 * Seconds of the file: where one stretch of the cue ends and the next begins, the next.
 */
const inFile = (stretches: Stretches, time: Clock, seconds: number): number => {
  let left = seconds;
  let end = 0;
  for (const { from, to } of stretches ?? [{ from: 0, to: null }]) {
    const begin = time.secondsAt(from);
    const long = to === null ? Infinity : time.secondsAt(to) - begin;
    if (left < long - margin) return begin + left;
    end = begin + long;
    left -= long;
  }
  // The end of the cue; or another file of it is longer, and goes on behind this one's stretches.
  return end + left;
};
