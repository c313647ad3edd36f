import type { Instrument } from '../instruments/instrument.ts';
import { partsOf } from '../midi/parts.ts';
import type { Score } from '../midi/score.ts';
import { playCue, unreadableCue, type CueFile } from '../playback/play-cue.ts';
import type { PlayOptions } from '../playback/play-copy.ts';
import type { FileUsage, LeftCue, SourceUsage } from '../playback/zone-usage.ts';
import { RouteLog } from '../template/routes/route-log.ts';
import { routeScore } from '../template/routes/route-score.ts';
import type { RoutedCopy } from '../template/routed.ts';
import type { Template } from '../template/template.ts';
import { controllers } from '../terms/controllers.ts';
import { UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { finding, type Finding } from '../terms/finding.ts';
import { findReel } from './find-reel.ts';
import { playSplit } from './play-split.ts';
import { readReel, type ReadCue } from './read-cues.ts';
import { foundInReel } from './reel-findings.ts';
import type { Watched } from './work-step.ts';

/** What the cues of a reel ask of the instruments of a template. */
export interface PlayedReel {
  /** In reel order. */
  readonly usage: readonly FileUsage[];
  /** The files that `usage` comes from, in the same order. */
  readonly sources: readonly SourceUsage[];
  /** What was named and does not count: by id, or for a newer version. */
  readonly leftOut: readonly LeftCue[];
  readonly findings: readonly Finding[];
}

export interface Reel extends Watched {
  /** As seen from the template's folder; none: those that the template names. */
  readonly cues: readonly string[];
  /** Ids of cues to leave out. */
  readonly without: readonly string[];
  /** Of each cue only the newest version counts. */
  readonly newest: boolean;
  /** Cues that look incomplete and are whole by the user's word. */
  readonly acceptPartial: readonly string[];
  /** `markers`: the markers of a file part it into cues. */
  readonly split: 'markers' | null;
  /** Only some cues were asked for: rules that they leave unused are no surprise. */
  readonly isPartial: boolean;
  /** Keep every place of every class, not the first three. */
  readonly everyPlace?: true;
  /** Other steps than the template's by which controllers may be widened: each is told exactly. */
  readonly furtherRooms?: readonly number[];
}

/**
 * Reads the cues one after the other, sends their parts to the instruments and plays them.
 *
 * @throws {UsageError} when neither names any
 */
export const playReel = async (
  files: Files,
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
  { cues, without, newest, split, isPartial, everyPlace, furtherRooms = [], onStep }: Reel,
): Promise<PlayedReel> => {
  const wanted = cues.length > 0 ? cues : template.cues;
  if (wanted.length === 0) {
    throw new UsageError(
      'Which cues?',
      'Name files or folders, or write them into the template: cues: cues/**/*.mid',
    );
  }
  const options = {
    slack: template.slack,
    controllerRoom: template.headroom.controller,
    furtherRooms,
    ...(everyPlace === true ? { everyPlace } : {}),
  };
  const places: (readonly [place: number, usage: FileUsage])[] = [];
  const sources: SourceUsage[] = [];
  const reel = await findReel(files, wanted, {
    without,
    newest,
    split: split ?? template.split,
    order: template.reel,
    template: template.path,
    isPartial,
  });
  let at = 0;
  for await (const read of readReel(files, reel)) {
    at += 1;
    const name = read.cues.map(({ file }) => file.cue).join(', ');
    await onStep?.({ doing: 'playing', name, count: { at, of: reel.files.length } });
    const played = playRead(read, template, instruments, options);
    places.push(...played.usage.map((one, i) => [read.cues[i]!.place, one] as const));
    sources.push(played.source);
  }
  // A file that holds several cues gives them all at once.
  const usage = places.sort(([a], [b]) => a - b).map(([, one]) => one);
  const findings = foundInReel(template, { usage, sources, older: reel.older }, isPartial);
  return { usage, sources, leftOut: reel.leftOut, findings };
};

/** Sends what was read of one file to the instruments, and plays it. */
const playRead = (
  { file, cues, score, findings }: ReadCue,
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
  options: PlayOptions,
): { readonly usage: readonly FileUsage[]; readonly source: SourceUsage } => {
  const { path, sha256 } = file;
  if (score === null) {
    const all = template.instruments.map(({ id }) => id);
    const usage = cues.map((one) => unreadableCue(one.file, all));
    return { usage, source: { path, sha256, findings, routing: {} } };
  }
  const told = (copies: readonly RoutedCopy[]) => [
    ...findings,
    ...ignoredPrograms(file, score, copies, instruments),
  ];
  if (cues[0].stretches !== null) {
    const { usage, copies, routing } = playSplit(score, cues, template, instruments, options);
    return { usage, source: { path, sha256, findings: told(copies), routing } };
  }
  const log = new RouteLog();
  const parts = partsOf(score);
  const routed = routeScore(template, file.cue, score, parts, file.file, instruments, log);
  const played = playCue(file, score, parts, routed, instruments, options);
  const routing = { [file.cue]: log.routing() };
  return { usage: [played], source: { path, sha256, findings: told(routed.copies), routing } };
};

const isBankSelect = (number: number): boolean =>
  number === controllers.bankSelectMsb || number === controllers.bankSelectLsb;

/** One preset plays whatever a track asks for: program changes and bank selects are not followed. */
const ignoredPrograms = (
  { path }: CueFile,
  { tracks }: Score,
  copies: readonly RoutedCopy[],
  instruments: ReadonlyMap<string, Instrument>,
): readonly Finding[] => {
  const ignoring = copies.filter(({ instrument }) => {
    const { playedAs, presetZones } = instruments.get(instrument)!;
    return playedAs === 'single' && presetZones.length > 0;
  });
  let events = 0;
  for (const track of new Set(ignoring.flatMap(({ sources }) => sources.map((one) => one.track)))) {
    const { status: statuses, data1 } = tracks[track]!.events;
    statuses.forEach((status, i) => {
      const kind = status & 0xf0;
      if (kind === 0xc0 || (kind === 0xb0 && isBankSelect(data1[i]!))) events++;
    });
  }
  return events === 0 ? [] : [finding('note', 'programs-ignored', path, { events })];
};
