import type { Program } from '../instruments/program.ts';
import type { Score } from '../midi/score.ts';
import type { Transform } from '../template/route.ts';
import type { RoutedCopy, RoutedSource } from '../template/routed.ts';
import { mergeTracks, type CopyStream, type Source } from './copy-stream.ts';
import { readsOf } from './reads.ts';

/**
 * The events that drive one copy: those of its parts, and the system exclusive messages of the ports
 * they stand on, whichever track holds them (design, section 5).
 */
export const copyStream = (score: Score, copy: RoutedCopy, program: Program): CopyStream => {
  const timeline = score.tracks[copy.sources[0]!.track]!.timeline;
  const ports = new Set(copy.sources.map(({ port }) => port));
  const sources = score.tracks
    .filter((track) => track.timeline === timeline)
    .map((track): Source => {
      const own = copy.sources.filter((source) => source.track === track.index);
      return { track, hears: hearing(own), systemOf: ports };
    })
    .filter(({ track, hears }) => hears.size > 0 || track.sysex.length > 0);
  return mergeTracks(copy.name, score.timelines[timeline]!, sources, readsOf(program));
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
