import { clock, type Clock } from '../midi/timeline.ts';
import type { Timeline } from '../midi/score.ts';
import { timecodeAt } from '../midi/timecode.ts';
import type { FileUsage, WitnessPlace } from '../playback/zone-usage.ts';
import type { Witness } from './plan.ts';

const clocks = new WeakMap<Timeline, Clock>();

const clockOf = (timeline: Timeline): Clock => {
  let found = clocks.get(timeline);
  if (found === undefined) clocks.set(timeline, (found = clock(timeline)));
  return found;
};

/** The bar in which an event of a cue file lies, from 1. */
export const barOf = (file: FileUsage, [number, tick]: WitnessPlace): number =>
  clockOf(file.timelines[file.tracks[number]!.timeline]!).placeAt(tick).bar;

/** An event of a cue file as people find it. @param key as it reaches the instrument; null for a controller */
export const witnessOf = (
  file: FileUsage,
  [number, tick]: WitnessPlace,
  key: number | null,
  velocity: number | null,
): Witness => {
  const track = file.tracks[number]!;
  const timeline = file.timelines[track.timeline]!;
  const { bar, beat, seconds } = clockOf(timeline).placeAt(tick);
  return {
    cue: file.cue,
    track: number,
    trackName: track.name,
    tick,
    bar,
    beat,
    seconds: Math.round(seconds * 1000) / 1000,
    timecode: timecodeAt(timeline, seconds),
    key,
    velocity,
  };
};
