import type { Program } from '../instruments/program.ts';
import type { Score } from '../midi/score.ts';
import type { Transform } from '../template/route.ts';
import type { RoutedCopy, RoutedSource } from '../template/routed.ts';
import { mergeTracks, type CopyStream, type Source } from './copy-stream.ts';
import { readsOf, type Reads } from './reads.ts';

/**
 * The events that drive one copy: those of its parts, and the system exclusive messages of the ports
 * they stand on, whichever track holds them (design, section 5).
 *
 * @param reads which messages are wanted: those that can change what plays, unless more is asked for
 */
export const copyStream = (
  score: Score,
  copy: RoutedCopy,
  program: Program,
  reads: Reads = readsOf(program),
): CopyStream => {
  const { timeline } = score.tracks[copy.sources[0]!.track]!;
  const systemOf = new Set(copy.sources.map(({ port }) => port));
  const byTrack = new Map<number, RoutedSource[]>();
  for (const source of copy.sources) {
    const own = byTrack.get(source.track);
    if (own === undefined) byTrack.set(source.track, [source]);
    else own.push(source);
  }
  for (const track of tracksWithSystem(score)) {
    if (score.tracks[track]!.timeline === timeline && !byTrack.has(track)) byTrack.set(track, []);
  }
  const sources = [...byTrack]
    .sort(([a], [b]) => a - b)
    .map(([track, own]): Source => ({
      track: score.tracks[track]!,
      hears: hearing(own),
      systemOf,
    }));
  return mergeTracks(copy.name, score.timelines[timeline]!, sources, reads);
};

const withSystem = new WeakMap<Score, readonly number[]>();

/** Tracks with system exclusive messages: few have any, and every copy of a score asks. */
const tracksWithSystem = (score: Score): readonly number[] => {
  let found = withSystem.get(score);
  if (found === undefined) {
    found = score.tracks.filter(({ sysex }) => sysex.length > 0).map(({ index }) => index);
    withSystem.set(score, found);
  }
  return found;
};

const hearing = (sources: readonly RoutedSource[]): Source['hears'] => {
  const hears = new Map<number, (Transform | null)[]>();
  for (const { port, channels, transform } of sources) {
    const by = hears.get(port) ?? new Array<Transform | null>(16).fill(null);
    for (let channel = 0; channel < 16; channel++) {
      if ((channels & (1 << channel)) !== 0) by[channel] = transform;
    }
    hears.set(port, by);
  }
  return hears;
};
