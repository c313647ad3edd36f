import { withArticulation } from '../instruments/fixed-articulation.ts';
import type { Instrument } from '../instruments/instrument.ts';
import type { Program } from '../instruments/program.ts';
import type { Part } from '../midi/parts.ts';
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

/**
 * Plays one cue file through the instruments that its parts are sent to.
 *
 * @param instruments by id: all that `routed` names
 */
export const playCue = (
  { cue, path, sha256, version }: CueFile,
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
  parts: parts.length,
  notes: parts.reduce((sum, part) => sum + part.notes, 0),
  seconds: lengthOf(score),
  state: isDamaged(score) ? 'damaged' : 'read',
  tainted,
  timelines: score.timelines,
  tracks: score.tracks.map(({ name, timeline }) => ({ name, timeline })),
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
  { cue, path, sha256, version }: CueFile,
  tainted: readonly string[],
): FileUsage => ({
  cue,
  path,
  sha256,
  version,
  parts: 0,
  notes: 0,
  seconds: 0,
  state: 'unreadable',
  tainted,
  timelines: [],
  tracks: [],
  copies: [],
});
