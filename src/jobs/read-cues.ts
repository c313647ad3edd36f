import { findCues } from '../files/find-cues.ts';
import { sha256 } from '../files/digest.ts';
import { compareCues, parseCueName, type CueName } from '../midi/cue-name.ts';
import { readMidi } from '../midi/read-midi.ts';
import { hasNotes, type Score } from '../midi/score.ts';
import type { CueFile } from '../playback/play-cue.ts';
import { byCodePoint } from '../terms/code-point-order.ts';
import { InputError, UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { finding, type Finding } from '../terms/finding.ts';

/** One cue file, read or not. */
export interface ReadCue {
  readonly file: CueFile;
  /** Null when the file could not be read at all. */
  readonly score: Score | null;
  readonly findings: readonly Finding[];
}

interface NamedCue {
  readonly path: string;
  readonly name: CueName;
}

/**
 * Reads the cues that arguments name, one after the other in reel order. A bad cue never stops the
 * others.
 *
 * @param without ids of cues to leave out
 * @throws {InputError} when an argument names nothing
 * @throws {UsageError} when `without` names no cue
 */
export async function* readCues(
  files: Files,
  args: readonly string[],
  without: readonly string[] = [],
): AsyncGenerator<ReadCue> {
  const all = (await findCues(files, args))
    .map((path): NamedCue => ({ path, name: parseCueName(path) }))
    .sort((a, b) => compareCues(a.name, b.name) || byCodePoint(a.path, b.path));
  checkIds(all, without);
  const counts = new Map<string, number>();
  for (const { path, name } of all.filter((cue) => !without.includes(cue.name.id))) {
    const file = counts.get(name.id) ?? 0;
    counts.set(name.id, file + 1);
    yield await readCue(files, path, name, file);
  }
}

/** Findings on the reel as a whole: versions side by side, several files for one cue. */
export const reelFindings = (cues: readonly CueFile[]): readonly Finding[] => {
  const ids = group(cues, ({ cue }) => cue);
  const several = [...ids]
    .filter(([, parts]) => parts.length > 1)
    .map(([cue, parts]) =>
      finding('note', 'cue-several-files', parts[0]!.path, { cue, files: parts.length }),
    );
  const numbers = group([...ids.keys()], (id) => id.replace(/ v\d+$/, ''));
  const versions = [...numbers]
    .filter(([, own]) => own.length > 1)
    .map(([cue, own]) => finding('note', 'cue-versions', null, { cue, versions: own }));
  return [...several, ...versions];
};

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

const readCue = async (
  files: Files,
  path: string,
  name: CueName,
  file: number,
): Promise<ReadCue> => {
  const cue: Omit<CueFile, 'sha256'> = { cue: name.id, path, version: name.version, file };
  let bytes: Uint8Array;
  try {
    bytes = await files.read(path);
  } catch (error) {
    return { file: { ...cue, sha256: noDigest }, score: null, findings: [stopOf(error)] };
  }
  const read = { ...cue, sha256: sha256(bytes) };
  try {
    const score = readMidi(bytes, path);
    const damaged = score.tracks.filter(({ damage }) => damage !== null).length;
    const unknown = damaged + score.missingTracks;
    const note =
      unknown === 0 ? [] : [finding('warning', 'cue-damaged', path, { tracks: unknown })];
    const silent = hasNotes(score) ? [] : [finding('warning', 'cue-without-notes', path, {})];
    return { file: read, score, findings: [...score.findings, ...note, ...silent] };
  } catch (error) {
    return { file: read, score: null, findings: [stopOf(error)] };
  }
};

/** Stands where a digest belongs of a file that gave no bytes: it is no file's. */
const noDigest = '0'.repeat(64);

const stopOf = (error: unknown): Finding => {
  if (error instanceof InputError) return error.finding;
  throw error;
};

const checkIds = (all: readonly NamedCue[], without: readonly string[]): void => {
  const ids = all.map(({ name }) => name.id);
  for (const id of without) {
    if (ids.includes(id)) continue;
    throw new UsageError(
      `No cue is called "${id}".`,
      `The cues are ${[...new Set(ids)].slice(0, 20).join(', ')}.`,
    );
  }
  if (ids.every((id) => without.includes(id))) {
    throw new UsageError('Every cue is left out.', 'Name fewer cues with --without.');
  }
};
