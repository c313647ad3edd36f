import type { Instrument } from '../instruments/instrument.ts';
import { cueRests, type CueTimes } from '../keep/reel/cue-rests.ts';
import { partsOf } from '../midi/parts.ts';
import { cueSounds, unreadableSounds, type CueFileSounds } from '../playback/cue-sounds.ts';
import { RouteLog } from '../template/routes/route-log.ts';
import { routeScore } from '../template/routes/route-score.ts';
import type { Template } from '../template/template.ts';
import type { Files } from '../terms/files.ts';
import { cueNamed } from './cue-named.ts';
import { findReel, type FoundFile } from './find-reel.ts';
import type { Reel } from './play-reel.ts';
import { readReel, type ReadCue } from './read-cues.ts';

/** What was read of one cue. */
export interface ReadRests {
  /** The id of the cue, as the reel has it. */
  readonly id: string;
  readonly times: CueTimes;
  /** Paths of files of the cue that could not be read: all that they play is unknown. */
  readonly unreadable: readonly string[];
}

export interface RestsOptions {
  /** Seconds that a sound goes on where its instrument does not say; Infinity, unless given. */
  readonly unknown?: number;
}

type ReelOfCue = Pick<Reel, 'cues' | 'without' | 'newest' | 'split' | 'isPartial'>;

/**
 * Reads the files of one cue again, and tells when each instrument plays in it.
 *
 * @param cue its id; the version may be left out where there is one
 * @param reel as it was played
 * @throws {UsageError} when there is no such cue, or several versions of it
 */
export const readCueRests = async (
  files: Files,
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
  cue: string,
  { cues, without, newest, split, isPartial }: ReelOfCue,
  { unknown = Infinity }: RestsOptions = {},
): Promise<ReadRests> => {
  const reel = await findReel(files, cues.length > 0 ? cues : template.cues, {
    without,
    newest,
    split: split ?? template.split,
    order: template.reel,
    template: template.path,
    isPartial,
  });
  const id = cueNamed(
    reel.files.flatMap((file) => file.cues.map((one) => one.cue)),
    cue,
  );
  const own = { ...reel, files: reel.files.flatMap((file) => partOf(file, id)) };
  const sounds: CueFileSounds[] = [];
  const unreadable: string[] = [];
  for await (const read of readReel(files, own)) {
    if (read.score === null) unreadable.push(read.file.path);
    sounds.push(soundsOf(read, template, instruments, unknown));
  }
  return { id, times: cueRests(sounds), unreadable };
};

/** The file as if it held this cue alone; nothing where it does not hold it. */
const partOf = (file: FoundFile, id: string): readonly FoundFile[] => {
  const [first, ...others] = file.cues.filter(({ cue }) => cue === id);
  return first === undefined ? [] : [{ ...file, cues: [first, ...others] }];
};

const soundsOf = (
  { file, cues: [{ stretches }], score }: ReadCue,
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
  unknown: number,
): CueFileSounds => {
  if (score === null) return unreadableSounds(template.instruments.map(({ id }) => id));
  // A part of a file hears all of it: keys and pedals are where the cue before has left them.
  const parts = partsOf(score);
  const log = new RouteLog();
  const routed = routeScore(template, file.cue, score, parts, file.file, instruments, log);
  return cueSounds(score, stretches, routed, instruments, unknown);
};
