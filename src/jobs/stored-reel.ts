import type { ComparedCue } from '../keep/completeness.ts';
import { planCues } from '../keep/plan-cues.ts';
import type { Instrument } from '../instruments/instrument.ts';
import { compareCues, parseCueName, type CueName } from '../midi/cue-name.ts';
import { beginOf } from '../midi/stretches.ts';
import { ascending } from '../playback/merge-usage.ts';
import {
  sourceKey,
  type FileUsage,
  type LeftCue,
  type UsageChoices,
  type ZoneUsage,
} from '../playback/zone-usage.ts';
import type { Template } from '../template/template.ts';
import { byCodePoint } from '../terms/code-point-order.ts';
import { UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import type { Finding } from '../terms/finding.ts';
import { chooseCues } from './find-reel.ts';
import { loadUsage, type WantedUsage } from './load-usage.ts';
import { foundInReel } from './reel-findings.ts';

/** The reel of usage files, as playing all of its cues in one run would have given it. */
export interface StoredReel {
  /** What is known of cues that do not count: newer versions are compared with them. */
  readonly older: readonly ComparedCue[];
  /** In reel order. */
  readonly usage: readonly FileUsage[];
  readonly findings: readonly Finding[];
  /** What was said of the cues here and when usage was made. */
  readonly choices: UsageChoices;
  readonly isPartial: boolean;
}

/** What the user says of the cues of the plan. */
export interface StoredChoices extends WantedUsage {
  readonly without: readonly string[];
  readonly newest: boolean;
  readonly acceptPartial: readonly string[];
}

/** A cue file of which there is usage, or one that was left out. */
interface StoredCue extends LeftCue {
  readonly usage: FileUsage | null;
}

/**
 * Reads usage files in place of cues.
 *
 * @param disk as seen from the working folder
 * @param paths of usage files, as the user named them: at least one
 * @throws {InputError} when one can't be read or was made for something else
 * @throws {TemplateError} when the reel names a cue that is not there
 * @throws {UsageError} when a cue to leave out is not there
 */
export const storedReel = async (
  disk: Files,
  paths: readonly string[],
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
  wanted: StoredChoices,
): Promise<StoredReel> => {
  const merged = await loadUsage(disk, paths, template, instruments, wanted);
  const files = Object.values(merged.files);
  const ids = new Set(files.map(({ cue }) => cue));
  // What one run left out and another has, is there.
  const leftOut = merged.leftOut.filter(({ cue }) => !ids.has(cue));
  const leftBefore = merged.choices.without.filter((id) => !ids.has(id));
  const without = ascending([...wanted.without, ...leftBefore]);
  const newest = wanted.newest || merged.choices.newest;
  const natural = [
    ...files.map((usage): StoredCue => ({ ...leftCue(usage), usage })),
    ...leftOut.map((one): StoredCue => ({ ...one, usage: null })),
  ].sort(naturalOrder);
  const { reel: order, path } = template;
  const chosen = chooseCues(natural, { without, newest, order, template: path });
  const usage = chosen.kept.map(playedCue);
  const sources = new Map(usage.map((one) => [sourceKey(one), merged.sources[sourceKey(one)]!]));
  const isPartial = isPart(merged);
  const played = { usage, sources: [...sources.values()], older: chosen.older };
  const kept = new Set(usage.map(({ cue }) => cue));
  const accepted = merged.choices.acceptPartial.filter((id) => kept.has(id));
  return {
    usage,
    older: planCues(chosen.leftOut.flatMap((one) => one.usage ?? [])),
    findings: foundInReel(template, played, isPartial),
    choices: {
      without,
      newest,
      acceptPartial: ascending([...wanted.acceptPartial, ...accepted]),
      split: merged.choices.split,
    },
    isPartial,
  };
};

const leftCue = ({ cue, path, version }: FileUsage): LeftCue => ({ cue, path, version });

const playedCue = ({ cue, usage }: StoredCue): FileUsage => {
  if (usage !== null) return usage;
  throw new UsageError(
    `There is no usage of cue "${cue}": it was left out when usage was made.`,
    'Run keepset usage on it, and give that usage too.',
  );
};

/** Some of the template's own cues are not there, and not because somebody left them out. */
const isPart = ({ reel, files, leftOut }: ZoneUsage): boolean => {
  const there = new Set([...Object.values(files), ...leftOut].map(({ path }) => path));
  return reel.some((path) => !there.has(path));
};

/**
 * What places a cue in the natural order, as in `findReel`: its number, or that of its file. Where
 * titles and paths decide between files of one cue, they have done so in their numbers.
 */
const nameOf = ({ cue, path, usage }: StoredCue): CueName => {
  const own = parseCueName((usage?.stretches ?? null) === null ? path : cue);
  return { ...(own.number === null ? parseCueName(path) : own), title: null };
};

const naturalOrder = (a: StoredCue, b: StoredCue): number =>
  compareCues(nameOf(a), nameOf(b)) ||
  (a.cue === b.cue ? (a.usage?.file ?? 0) - (b.usage?.file ?? 0) : 0) ||
  byCodePoint(a.path, b.path) ||
  beginOf(a.usage?.stretches ?? null) - beginOf(b.usage?.stretches ?? null);
