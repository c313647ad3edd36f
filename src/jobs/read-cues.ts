import { sha256 } from '../files/digest.ts';
import { withoutVersion } from '../midi/cue-name.ts';
import type { OlderVersions } from '../midi/cue-versions.ts';
import { readMidi } from '../midi/read-midi.ts';
import { hasNotes, type Score } from '../midi/score.ts';
import type { NotSplit } from '../midi/split.ts';
import type { Stretches } from '../midi/stretches.ts';
import type { CueFile } from '../playback/play-cue.ts';
import { InputError, inputError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { finding, type Finding } from '../terms/finding.ts';
import { findReel, type FoundFile, type FoundReel, type ReelOptions } from './find-reel.ts';

/** One cue file, read or not. */
export interface ReadCue {
  readonly file: CueFile;
  /** What it holds: one cue, or several where it was split; `file` is the first of them. */
  readonly cues: readonly [ReelCue, ...ReelCue[]];
  /** Null when the file could not be read at all. */
  readonly score: Score | null;
  readonly findings: readonly Finding[];
}

export interface ReelCue {
  readonly file: CueFile;
  /** What of the file it is; null: all of it. */
  readonly stretches: Stretches;
  /** Its place in the reel, from 0. */
  readonly place: number;
}

/**
 * Reads the cues that arguments name, one after the other in reel order. A bad cue never stops the
 * others. Of a file that holds several cues the place of its first one counts.
 *
 * @throws {InputError} when an argument names nothing
 * @throws {TemplateError} when the reel names a cue that is not there
 * @throws {UsageError} when `without` names no cue
 */
export async function* readCues(
  files: Files,
  args: readonly string[],
  options: ReelOptions = {},
): AsyncGenerator<ReadCue> {
  yield* readReel(files, await findReel(files, args, options));
}

/** Reads the files of a reel that was found. */
export async function* readReel(files: Files, reel: FoundReel): AsyncGenerator<ReadCue> {
  for (const file of reel.files) yield await readFile(files, file);
}

/** Findings on the reel as a whole: versions side by side, several files for one cue. */
export const reelFindings = (
  cues: readonly Pick<CueFile, 'cue' | 'path'>[],
): readonly Finding[] => {
  const ids = group(cues, ({ cue }) => cue);
  const several = [...ids]
    .filter(([, parts]) => parts.length > 1)
    .map(([cue, parts]) =>
      finding('note', 'cue-several-files', parts[0]!.path, { cue, files: parts.length }),
    );
  const numbers = group([...ids.keys()], withoutVersion);
  const versions = [...numbers]
    .filter(([, own]) => own.length > 1)
    .map(([cue, own]) => finding('note', 'cue-versions', null, { cue, versions: own }));
  return [...several, ...versions];
};

/** What `--newest` has left aside. */
export const olderVersionFindings = (older: readonly OlderVersions[]): readonly Finding[] =>
  older.map(({ cue, newest, older: versions }) =>
    finding('note', 'cue-versions-left', null, { cue, newest, older: versions }),
  );

const group = <T>(
  list: readonly T[],
  key: (one: T) => string,
): ReadonlyMap<string, readonly T[]> => {
  const groups = new Map<string, T[]>();
  for (const one of list) {
    const own = groups.get(key(one));
    if (own === undefined) groups.set(key(one), [one]);
    else own.push(one);
  }
  return groups;
};

const readFile = async (files: Files, found: FoundFile): Promise<ReadCue> => {
  const { path, notSplit } = found;
  let bytes: Uint8Array;
  try {
    bytes = await files.read(path);
  } catch (error) {
    return unread(found, noDigest, stopOf(error));
  }
  const digest = sha256(bytes);
  if (found.sha256 !== null && found.sha256 !== digest) {
    // Where its cues lie is not known any more.
    return unread(found, digest, inputError('path-changed-while-read', path, {}).finding);
  }
  try {
    const score = readMidi(bytes, path);
    const damaged = score.tracks.filter(({ damage }) => damage !== null).length;
    const unknown = damaged + score.missingTracks;
    const note =
      unknown === 0 ? [] : [finding('warning', 'cue-damaged', path, { tracks: unknown })];
    const silent = hasNotes(score) ? [] : [finding('warning', 'cue-without-notes', path, {})];
    const whole = notSplit === null ? [] : [notSplitFinding(path, notSplit)];
    return {
      ...placed(found, digest),
      score,
      findings: [...score.findings, ...note, ...silent, ...whole],
    };
  } catch (error) {
    return unread(found, digest, stopOf(error));
  }
};

const notSplitFinding = (path: string, reason: NotSplit): Finding =>
  finding(reason === 'no-markers' ? 'note' : 'warning', 'cue-not-split', path, { reason });

const unread = (found: FoundFile, digest: string, stop: Finding): ReadCue => ({
  ...placed(found, digest),
  score: null,
  findings: [stop],
});

const placed = ({ cues }: FoundFile, digest: string): Pick<ReadCue, 'file' | 'cues'> => {
  const [first, ...others] = cues.map(
    ({ cue, path, version, file, stretches, place }): ReelCue => ({
      file: { cue, path, sha256: digest, version, file },
      stretches,
      place,
    }),
  );
  return { file: first!.file, cues: [first!, ...others] };
};

/** Stands where a digest belongs of a file that gave no bytes: it is no file's. */
const noDigest = '0'.repeat(64);

const stopOf = (error: unknown): Finding => {
  if (error instanceof InputError) return error.finding;
  throw error;
};
