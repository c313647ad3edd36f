import { withArticulation } from '../instruments/fixed-articulation.ts';
import type { Instrument } from '../instruments/instrument.ts';
import type { Program } from '../instruments/program.ts';
import { eventsOf, type Part } from '../midi/parts.ts';
import { isDamaged, type Score } from '../midi/score.ts';
import { clock } from '../midi/timeline.ts';
import type { Routed, RoutedCopy } from '../template/routed.ts';
import { copyStream } from './copies.ts';
import { playCopy, type PlayOptions } from './play-copy.ts';
import type { CopyUsage, FileUsage } from './zone-usage.ts';

/** A cue file as the reel knows it. */
export interface CueFile {
  readonly cue: string;
  readonly path: string;
  readonly sha256: string;
  readonly version: number | null;
  /** Which of the cue's files, from 0. */
  readonly file: number;
}

/** Seconds from the start of a score to the last End of Track, with three decimals. */
export const lengthOf = (score: Score): number =>
  score.tracks.reduce((longest, { timeline, end }) => {
    const seconds = clock(score.timelines[timeline]!).secondsAt(end);
    return Math.max(longest, Math.round(seconds * 1000) / 1000);
  }, 0);

/** Seconds from the start of a score to the end of its last note, with three decimals; 0 without notes. */
const musicOf = (score: Score, parts: readonly Part[]): number => {
  let last = 0;
  for (const part of parts) {
    if (part.notes === 0) continue;
    const { timeline, events } = score.tracks[part.track]!;
    const own = eventsOf(score, part);
    const end = own.findLast((event) => events.status[event]! < 0xa0);
    if (end === undefined) continue;
    last = Math.max(last, clock(score.timelines[timeline]!).secondsAt(events.tick[end]!));
  }
  return Math.round(last * 1000) / 1000;
};

/**
 * Plays one cue file through the instruments that its parts are sent to.
 *
 * @param instruments by id: all that `routed` names
 */
export const playCue = (
  { cue, path, sha256, version, file }: CueFile,
  score: Score,
  parts: readonly Part[],
  { copies, tainted }: Pick<Routed, 'copies' | 'tainted'>,
  instruments: ReadonlyMap<string, Instrument>,
  options: PlayOptions,
): FileUsage => ({
  cue,
  path,
  sha256,
  version,
  file,
  stretches: null,
  parts: parts.length,
  notes: parts.reduce((sum, part) => sum + part.notes, 0),
  seconds: lengthOf(score),
  music: musicOf(score, parts),
  state: isDamaged(score) ? 'damaged' : 'read',
  tainted,
  timelines: score.timelines,
  tracks: score.tracks.map(({ name, timeline }, track) => ({
    name,
    timeline,
    notes: parts.reduce((sum, part) => sum + (part.track === track ? part.notes : 0), 0),
  })),
  copies: copies.map((copy) => playRouted(score, copy, instruments, options)),
});

const playRouted = (
  score: Score,
  copy: RoutedCopy,
  instruments: ReadonlyMap<string, Instrument>,
  options: PlayOptions,
): CopyUsage => {
  const instrument = instruments.get(copy.instrument)!;
  const program = programFor(instrument, copy.articulation);
  const stream = copyStream(score, copy, program);
  return {
    instrument: copy.instrument,
    articulation: copy.articulation,
    printed: copy.printed,
    ...playCopy(program, stream, options),
  };
};

/** The program that a copy plays: the instrument's own, or that of the articulation it is tied to. */
export const programFor = (instrument: Instrument, articulation: string | null): Program => {
  const index = instrument.articulations.findIndex(({ name }) => name === articulation);
  return index < 0 ? instrument.program : withArticulation(instrument, index);
};

/**
 * A cue file that could not be read: what it plays is unknown.
 *
 * @param tainted ids of all instruments there are
 */
export const unreadableCue = (
  { cue, path, sha256, version, file }: CueFile,
  tainted: readonly string[],
): FileUsage => ({
  cue,
  path,
  sha256,
  version,
  file,
  stretches: null,
  parts: 0,
  notes: 0,
  seconds: 0,
  music: 0,
  state: 'unreadable',
  tainted,
  timelines: [],
  tracks: [],
  copies: [],
});
