import type { Instrument } from '../instruments/instrument.ts';
import type { Part } from '../midi/parts.ts';
import { isDamaged, type Score } from '../midi/score.ts';
import { clock } from '../midi/timeline.ts';
import { copiesOf } from './copies.ts';
import { playCopy } from './play-copy.ts';
import type { FileUsage } from './zone-usage.ts';

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

/** Plays one cue file through an instrument. */
export const playCue = (
  { cue, path, sha256, version, file }: CueFile,
  score: Score,
  parts: readonly Part[],
  instrument: Instrument,
): FileUsage => {
  const copies = copiesOf(score, parts, instrument, file).map((stream) =>
    playCopy(instrument.id, instrument.program, stream),
  );
  // Tracks that are missing may have driven any copy of the cue.
  const missing = score.missingTracks > 0;
  return {
    cue,
    path,
    sha256,
    version,
    parts: parts.length,
    notes: parts.reduce((sum, part) => sum + part.notes, 0),
    seconds: lengthOf(score),
    state: isDamaged(score) ? 'damaged' : 'read',
    timelines: score.timelines,
    tracks: score.tracks.map(({ name, timeline }) => ({ name, timeline })),
    copies: copies.map((copy) => (missing ? { ...copy, damaged: true } : copy)),
  };
};

/** A cue file that could not be read: what it plays is unknown. */
export const unreadableCue = ({ cue, path, sha256, version }: CueFile): FileUsage => ({
  cue,
  path,
  sha256,
  version,
  parts: 0,
  notes: 0,
  seconds: 0,
  state: 'unreadable',
  timelines: [],
  tracks: [],
  copies: [],
});
