import { findCues } from '../files/find-cues.ts';
import { sha256 } from '../files/digest.ts';
import { compareCues, parseCueName, type CueName } from '../midi/cue-name.ts';
import { readMidi } from '../midi/read-midi.ts';
import { hasNotes, type Score } from '../midi/score.ts';
import type { CueFile } from '../playback/play-cue.ts';
import { nearest } from '../notation/nearest.ts';
import { byCodePoint } from '../terms/code-point-order.ts';
import { InputError, TemplateError, UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { finding, type Finding } from '../terms/finding.ts';

/** One cue file, read or not. */
export interface ReadCue {
  readonly file: CueFile;
  /** Null when the file could not be read at all. */
  readonly score: Score | null;
  readonly findings: readonly Finding[];
}

export interface ReelOptions {
  /** Ids of cues to leave out. */
  readonly without?: readonly string[] | undefined;
  /** Cue ids in playing order, with or without a version; null: their natural order. */
  readonly order?: readonly string[] | null;
  /** The file that holds the order. */
  readonly template?: string | null;
}

interface NamedCue {
  readonly path: string;
  readonly name: CueName;
}

/**
 * Reads the cues that arguments name, one after the other in reel order. A bad cue never stops the
 * others.
 *
 * @throws {InputError} when an argument names nothing
 * @throws {TemplateError} when the reel names a cue that is not there
 * @throws {UsageError} when `without` names no cue
 */
export async function* readCues(
  files: Files,
  args: readonly string[],
  { without = [], order = null, template = null }: ReelOptions = {},
): AsyncGenerator<ReadCue> {
  const natural = (await findCues(files, args))
    .map((path): NamedCue => ({ path, name: parseCueName(path) }))
    .sort((a, b) => compareCues(a.name, b.name) || byCodePoint(a.path, b.path));
  checkIds(natural, without);
  const all = order === null ? natural : inReelOrder(natural, order, template);
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
  const numbers = group([...ids.keys()], withoutVersion);
  const versions = [...numbers]
    .filter(([, own]) => own.length > 1)
    .map(([cue, own]) => finding('note', 'cue-versions', null, { cue, versions: own }));
  return [...several, ...versions];
};

/** The reel's cues in its order, and behind them those that it does not name, in their natural order. */
const inReelOrder = (
  cues: readonly NamedCue[],
  order: readonly string[],
  template: string | null,
): readonly NamedCue[] => {
  const place = (id: string): number => {
    const exact = order.indexOf(id);
    return exact >= 0 ? exact : order.indexOf(withoutVersion(id));
  };
  const named = new Set(cues.map(({ name }) => order[place(name.id)]));
  const missing = order.find((id) => !named.has(id));
  if (missing !== undefined) {
    const near = nearest(
      missing,
      cues.map(({ name }) => name.id),
    );
    throw new TemplateError(finding('error', 'reel-cue-missing', template, { cue: missing, near }));
  }
  const rank = ({ name }: NamedCue): number => {
    const at = place(name.id);
    return at < 0 ? order.length : at;
  };
  return [...cues].sort((a, b) => rank(a) - rank(b));
};

const withoutVersion = (id: string): string => id.replace(/ v\d+$/, '');

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
