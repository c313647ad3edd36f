import { sha256 } from '../files/digest.ts';
import { findCues } from '../files/find-cues.ts';
import { compareCues, parseCueName, withoutVersion, type CueName } from '../midi/cue-name.ts';
import { newestOnly, type OlderVersions, type Versioned } from '../midi/cue-versions.ts';
import { readMidi } from '../midi/read-midi.ts';
import { splitAtMarkers, type NotSplit } from '../midi/split.ts';
import type { Stretches } from '../midi/stretches.ts';
import { nearest } from '../notation/nearest.ts';
import { byCodePoint } from '../terms/code-point-order.ts';
import { InputError, TemplateError, UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { finding } from '../terms/finding.ts';

export interface ReelOptions {
  /** Ids of cues to leave out. */
  readonly without?: readonly string[] | undefined;
  /** Of the versions of a cue only the newest. */
  readonly newest?: boolean;
  /** `markers`: the markers of a file part it into cues. */
  readonly split?: 'markers' | null;
  /** Cue ids in playing order, with or without a version; null: their natural order. */
  readonly order?: readonly string[] | null;
  /** The file that holds the order. */
  readonly template?: string | null;
  /** Only some of the reel's cues were asked for: the order may name others. */
  readonly isPartial?: boolean;
}

/** A cue before it is read. */
export interface FoundCue {
  readonly cue: string;
  readonly version: number | null;
  readonly path: string;
  /** What of the file it is; null: all of it. */
  readonly stretches: Stretches;
  /** Which of the cue's files, from 0. */
  readonly file: number;
  /** Its place in the reel, from 0. */
  readonly place: number;
}

/** A file, and the cues it holds that count: at least one, in the order of the reel. */
export interface FoundFile {
  readonly path: string;
  readonly cues: readonly [FoundCue, ...FoundCue[]];
  /** Of its bytes, where its cues were found by reading it; else null. */
  readonly sha256: string | null;
  /** Why it is one cue although files were to be split. */
  readonly notSplit: NotSplit | null;
}

export interface FoundReel {
  /** In the order of their first cues. */
  readonly files: readonly FoundFile[];
  /** Cues that do not count: by id, or for a newer version. */
  readonly leftOut: readonly Pick<FoundCue, 'cue' | 'version' | 'path'>[];
  /** Versions that were left aside for newer ones. */
  readonly older: readonly OlderVersions[];
}

/** A cue while the reel is put in order. */
interface NamedCue extends Pick<FoundCue, 'cue' | 'version' | 'path' | 'stretches'> {
  /** What places it: without a number of its own, the name of the file that it is in. */
  readonly name: CueName;
}

type Looked = Pick<FoundFile, 'sha256' | 'notSplit'>;

/**
 * Finds the cues that arguments name, and their order. Files are read only to be split: their markers
 * say what they hold.
 *
 * @throws {InputError} when an argument names nothing
 * @throws {TemplateError} when the reel names a cue that is not there
 * @throws {UsageError} when `without` names no cue
 */
export const findReel = async (
  files: Files,
  args: readonly string[],
  { split = null, ...choice }: ReelOptions = {},
): Promise<FoundReel> => {
  const looked = new Map<string, Looked>();
  const found: NamedCue[] = [];
  for (const path of await findCues(files, args)) {
    const { cues, ...own } = split === null ? wholeFile(path) : await cuesIn(files, path);
    looked.set(path, own);
    found.push(...cues);
  }
  // The sort is stable: what only its place in a file tells apart stays in that order.
  const natural = found.sort((a, b) => compareCues(a.name, b.name) || byCodePoint(a.path, b.path));
  const { kept, leftOut, older } = chooseCues(natural, choice);
  return {
    files: byFile(numbered(kept), looked),
    leftOut: leftOut.map(({ cue, version, path }) => ({ cue, version, path })),
    older,
  };
};

/** Cues of a reel in its order: those that count, and those that do not. */
export interface ChosenCues<Cue> {
  readonly kept: readonly Cue[];
  readonly leftOut: readonly Cue[];
  readonly older: readonly OlderVersions[];
}

/**
 * Puts cues in the order of the reel and leaves out what the user does not want.
 *
 * @param natural in the natural order of their names
 * @throws {TemplateError} when the reel names a cue that is not there
 * @throws {UsageError} when `without` names no cue, or all
 */
export const chooseCues = <Cue extends Versioned>(
  natural: readonly Cue[],
  {
    without = [],
    newest = false,
    order = null,
    template = null,
    isPartial = false,
  }: Omit<ReelOptions, 'split'>,
): ChosenCues<Cue> => {
  const ids = natural.map(({ cue }) => cue);
  checkCueIds(ids, without);
  if (ids.every((id) => without.includes(id))) {
    throw new UsageError('Every cue is left out.', 'Name fewer cues with --without.');
  }
  const all = order === null ? natural : inReelOrder(natural, order, template, isPartial);
  const wanted = all.filter(({ cue }) => !without.includes(cue));
  const { newest: kept, left } = newest ? newestOnly(wanted) : { newest: wanted, left: [] };
  const counts = new Set(kept);
  return { kept, leftOut: all.filter((one) => !counts.has(one)), older: left };
};

/** @throws {UsageError} when one of `named` is no cue */
export const checkCueIds = (ids: readonly string[], named: readonly string[]): void => {
  for (const id of named) {
    if (ids.includes(id)) continue;
    throw new UsageError(
      `No cue is called "${id}".`,
      `The cues are ${[...new Set(ids)].slice(0, 20).join(', ')}.`,
    );
  }
};

type Contents = Looked & { readonly cues: readonly NamedCue[] };

const wholeFile = (path: string, rest: Partial<Looked> = {}): Contents => {
  const name = parseCueName(path);
  const cue = { cue: name.id, version: name.version, path, stretches: null, name };
  return { cues: [cue], sha256: null, notSplit: null, ...rest };
};

const cuesIn = async (files: Files, path: string): Promise<Contents> => {
  try {
    const bytes = await files.read(path);
    const cues = splitAtMarkers(readMidi(bytes, path), path);
    if (typeof cues === 'string') return wholeFile(path, { notSplit: cues });
    const order = parseCueName(path);
    return {
      cues: cues.map(({ name, stretches }) => ({
        cue: name.id,
        version: name.version,
        path,
        stretches,
        name: name.number === null ? order : name,
      })),
      sha256: sha256(bytes),
      notSplit: null,
    };
  } catch (error) {
    // Why it can't be read is told when it is read to be played.
    if (error instanceof InputError) return wholeFile(path);
    throw error;
  }
};

/** The reel's cues in its order, and behind them those that it does not name, in their natural order. */
const inReelOrder = <Cue extends Versioned>(
  cues: readonly Cue[],
  order: readonly string[],
  template: string | null,
  isPartial: boolean,
): readonly Cue[] => {
  const place = (id: string): number => {
    const exact = order.indexOf(id);
    return exact >= 0 ? exact : order.indexOf(withoutVersion(id));
  };
  const named = new Set(cues.map(({ cue }) => order[place(cue)]));
  const missing = isPartial ? undefined : order.find((id) => !named.has(id));
  if (missing !== undefined) {
    const near = nearest(
      missing,
      cues.map(({ cue }) => cue),
    );
    throw new TemplateError(finding('error', 'reel-cue-missing', template, { cue: missing, near }));
  }
  const rank = ({ cue }: Cue): number => {
    const at = place(cue);
    return at < 0 ? order.length : at;
  };
  return [...cues].sort((a, b) => rank(a) - rank(b));
};

const numbered = (cues: readonly NamedCue[]): readonly FoundCue[] => {
  const counts = new Map<string, number>();
  return cues.map(({ cue, version, path, stretches }, place) => {
    const file = counts.get(cue) ?? 0;
    counts.set(cue, file + 1);
    return { cue, version, path, stretches, file, place };
  });
};

const byFile = (
  cues: readonly FoundCue[],
  looked: ReadonlyMap<string, Looked>,
): readonly FoundFile[] => {
  const files = new Map<string, [FoundCue, ...FoundCue[]]>();
  for (const cue of cues) {
    const own = files.get(cue.path);
    if (own === undefined) files.set(cue.path, [cue]);
    else own.push(cue);
  }
  return [...files].map(([path, own]) => ({ path, cues: own, ...looked.get(path)! }));
};
