import type { Instrument } from '../instruments/instrument.ts';
import { partsOf } from '../midi/parts.ts';
import type { Score } from '../midi/score.ts';
import { playCue, unreadableCue, type CueFile } from '../playback/play-cue.ts';
import type { FileUsage } from '../playback/zone-usage.ts';
import { matchPattern } from '../template/patterns/match-pattern.ts';
import { RouteLog } from '../template/routes/route-log.ts';
import { routeScore } from '../template/routes/route-score.ts';
import type { RoutedCopy } from '../template/routed.ts';
import type { Template } from '../template/template.ts';
import { controllers } from '../terms/controllers.ts';
import { UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { finding, type Finding } from '../terms/finding.ts';
import { readCues, reelFindings } from './read-cues.ts';

/** What the cues of a reel ask of the instruments of a template. */
export interface PlayedReel {
  /** In reel order. */
  readonly usage: readonly FileUsage[];
  readonly findings: readonly Finding[];
}

export interface Reel {
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
  { cues, without, isPartial, everyPlace }: Reel,
): Promise<PlayedReel> => {
  const wanted = cues.length > 0 ? cues : template.cues;
  if (wanted.length === 0) {
    throw new UsageError(
      'Which cues?',
      'Name files or folders, or write them into the template: cues: cues/**/*.mid',
    );
  }
  const log = new RouteLog();
  const options = {
    slack: template.slack,
    controllerRoom: template.headroom.controller,
    ...(everyPlace === true ? { everyPlace } : {}),
  };
  const all = template.instruments.map(({ id }) => id);
  const usage: FileUsage[] = [];
  const reel: CueFile[] = [];
  const findings: Finding[] = [];
  const { reel: order } = template;
  for await (const read of readCues(files, wanted, { without, order, template: template.path })) {
    const { file, score } = read;
    reel.push(file);
    findings.push(...read.findings);
    if (score === null) {
      usage.push(unreadableCue(file, all));
      continue;
    }
    const parts = partsOf(score);
    const routed = routeScore(template, file.cue, score, parts, file.file, instruments, log);
    const played = playCue(file, score, parts, routed, instruments, options);
    usage.push(played);
    findings.push(
      ...ignoredPrograms(file, score, routed.copies, instruments),
      ...lostNotes(file, played),
    );
  }
  return {
    usage,
    findings: [
      ...findings,
      ...reelFindings(reel),
      ...joinsAcrossFiles(template, usage),
      ...log.findings(template, isPartial),
    ],
  };
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

const lostNotes = ({ cue, path }: CueFile, { copies }: FileUsage): readonly Finding[] =>
  copies
    .filter((copy) => copy.lostNotes > 0)
    .map(({ copy: track, lostNotes: notes }) =>
      finding('warning', 'notes-out-of-range', path, { cue, track, notes }),
    );

/** Each file of a cue has copies of its own, so tracks that are joined must be in one file. */
const joinsAcrossFiles = (
  { path, routes }: Template,
  usage: readonly FileUsage[],
): readonly Finding[] => {
  const joins = routes.filter(({ join }) => join !== null);
  const cues = new Set(usage.map(({ cue }) => cue));
  if (joins.length === 0 || cues.size === usage.length) return [];
  return [...cues].flatMap((cue) => {
    const files = usage.filter((file) => file.cue === cue);
    return joins
      .filter(({ tracks }) => {
        const hasOne = ({ tracks: own }: FileUsage): boolean =>
          own.some(({ name }) => tracks.some((one) => matchPattern(one, name ?? '') !== null));
        return files.filter(hasOne).length > 1;
      })
      .map(({ rule, at }) => finding('warning', 'join-across-files', path, { cue, rule }, at));
  });
};
