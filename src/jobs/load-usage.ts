import type { Instrument } from '../instruments/instrument.ts';
import type { Fault } from '../keep/usage-file/checks.ts';
import { fault } from '../keep/usage-file/checks.ts';
import { fitFault } from '../keep/usage-file/fits-instruments.ts';
import { badValue, readUsageFile } from '../keep/usage-file/read-usage-file.ts';
import { fewPlaces } from '../playback/class-table.ts';
import { mergeUsage, MergeRefused } from '../playback/merge-usage.ts';
import type { FileUsage, ZoneUsage } from '../playback/zone-usage.ts';
import { findingCodes, messageOf } from '../report/messages.ts';
import type { Template } from '../template/template.ts';
import { inputError, type InputError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';

/** What a plan asks of usage. */
export interface WantedUsage {
  readonly split: 'markers' | null;
  /** Steps by which controllers are widened, beside none. */
  readonly controllerRooms: readonly number[];
  /** Notes are counted one by one. */
  readonly everyPlace: boolean;
}

interface LoadedUsage {
  readonly path: string;
  readonly usage: ZoneUsage;
}

/**
 * Reads usage files and joins them to one.
 *
 * @throws {InputError} when one is not sound, was made for another template, other instruments or
 *   another kind of plan, or does not go with the others
 */
export const loadUsage = async (
  disk: Files,
  paths: readonly string[],
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
  wanted: WantedUsage,
): Promise<ZoneUsage> => {
  const all: LoadedUsage[] = [];
  for (const path of paths) {
    const usage = readUsageFile(await disk.read(path), path);
    checkMadeFor(path, usage, template, instruments, wanted);
    const astray = fitFault(usage, instruments, template.routes.length) ?? findingFault(usage);
    if (astray !== null) throw badValue(astray, path);
    all.push({ path, usage: wanted.everyPlace ? usage : withFewPlaces(usage) });
  }
  const [first, ...others] = all;
  const merged = others.reduce((before, one) => joined(before, one, first!.path), first!.usage);
  checkFilesOfCues(merged, all);
  return merged;
};

const checkMadeFor = (
  path: string,
  usage: ZoneUsage,
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
  { split, controllerRooms, everyPlace }: WantedUsage,
): void => {
  if (usage.template !== template.sha256) throw inputError('usage-file-template', path, {});
  for (const [instrument, { sha256 }] of instruments) {
    const isThere = Object.hasOwn(usage.instruments, instrument);
    if (isThere && usage.instruments[instrument] === sha256) continue;
    const state = isThere ? 'changed' : 'missing';
    throw inputError('usage-file-instrument', path, { instrument, state });
  }
  const unknown = Object.keys(usage.instruments).find((id) => !instruments.has(id));
  if (unknown !== undefined) {
    throw inputError('usage-file-instrument', path, { instrument: unknown, state: 'unknown' });
  }
  const room = controllerRooms.find((one) => one > 0 && !usage.controllerRooms.includes(one));
  if (room !== undefined) {
    const { controllerRooms: rooms } = usage;
    throw inputError('usage-file-room', path, { wanted: room, rooms });
  }
  if (everyPlace && !usage.everyPlace) throw inputError('usage-file-places', path, {});
  if (split !== null && usage.choices.split !== split) {
    throw inputError('usage-file-split', path, {});
  }
};

/** What was found must be what can be told. */
const findingFault = ({ sources }: ZoneUsage): Fault | null => {
  for (const [key, { findings }] of Object.entries(sources)) {
    const wrong = findings.findIndex((one) => {
      if (!findingCodes.includes(one.code)) return true;
      try {
        messageOf(one);
        return false;
      } catch {
        return true;
      }
    });
    if (wrong >= 0) return fault('finding', 'sources', key, 'findings', wrong);
  }
  return null;
};

const joined = (before: ZoneUsage, { path, usage }: LoadedUsage, first: string): ZoneUsage => {
  try {
    return mergeUsage(before, usage);
  } catch (error) {
    if (!(error instanceof MergeRefused)) throw error;
    const { difference } = error;
    throw difference.kind === 'file'
      ? inputError('usage-files-changed', path, { path: difference.path })
      : inputError('usage-files-differ', path, { other: first, by: difference.kind });
  }
};

/** Files of one cue are told apart by their numbers, which one run has given them all. */
const checkFilesOfCues = (merged: ZoneUsage, all: readonly LoadedUsage[]): void => {
  const digests = new Map<string, string>();
  for (const { path, sha256 } of Object.values(merged.sources)) {
    if ((digests.get(path) ?? sha256) !== sha256) throw changed(path, all);
    digests.set(path, sha256);
  }
  const numbers = new Map<string, FileUsage>();
  for (const file of Object.values(merged.files)) {
    const number = `${String(file.file)} ${file.cue}`;
    const other = numbers.get(number);
    if (other !== undefined) {
      const files = [other.path, file.path].sort();
      throw inputError('usage-files-cue', holder(file.path, all), { cue: file.cue, files });
    }
    numbers.set(number, file);
  }
};

const changed = (path: string, all: readonly LoadedUsage[]): InputError =>
  inputError('usage-files-changed', holder(path, all), { path });

/** The last usage file that knows of a cue file. */
const holder = (path: string, all: readonly LoadedUsage[]): string | null =>
  all.findLast(({ usage }) => Object.values(usage.sources).some((one) => one.path === path))
    ?.path ?? null;

/** As it is where all places are not asked for. */
const withFewPlaces = (usage: ZoneUsage): ZoneUsage => {
  if (!usage.everyPlace) return usage;
  const few = (file: FileUsage): FileUsage => ({
    ...file,
    copies: file.copies.map((copy) => ({
      ...copy,
      classes: copy.classes.map((one) => ({
        ...one,
        witnesses: one.witnesses.slice(0, fewPlaces),
      })),
    })),
  });
  const files = Object.entries(usage.files).map(([key, file]) => [key, few(file)] as const);
  return { ...usage, everyPlace: false, files: Object.fromEntries(files) };
};
