import { sha256 } from '../files/digest.ts';
import { DiskFiles } from '../files/disk-files.ts';
import type { Instrument } from '../instruments/instrument.ts';
import { readSoundFont } from '../instruments/soundfont/read.ts';
import { parseInstrumentSource } from '../instruments/soundfont/source.ts';
import type { Settlements } from '../keep/decision.ts';
import { makePlan } from '../keep/make-plan.ts';
import type { Plan } from '../keep/plan.ts';
import { partsOf } from '../midi/parts.ts';
import type { Score } from '../midi/score.ts';
import { playCue, unreadableCue, type CueFile } from '../playback/play-cue.ts';
import type { FileUsage } from '../playback/zone-usage.ts';
import { controllers } from '../terms/controllers.ts';
import type { Files } from '../terms/files.ts';
import { finding, type Finding } from '../terms/finding.ts';
import { readCues, reelFindings } from './read-cues.ts';

export interface PlanOptions {
  /** Files, folders or patterns. */
  readonly cues: readonly string[];
  /** `FILE.sf2`, or `FILE.sf2#bank:program` for one preset. */
  readonly instrument: string;
  /** Doubts answered: `plain` lets go what is reached only through them, `accept` keeps it. */
  readonly settle?: Settlements;
  /** Ids of cues to leave out. */
  readonly without?: readonly string[];
  /** Where files are read from; the disk when left out. */
  readonly files?: Files;
}

/**
 * Finds what the cues reach in an instrument: the keep set, its reasons, the memory it saves, and
 * what every doubt costs.
 *
 * A cue that can't be read does not stop it: its state is `unreadable` and everything is kept for it.
 *
 * @throws {InputError} when an argument names nothing, or the instrument can't be trusted
 * @throws {UsageError} when a preset or a cue to leave out is not well named
 */
export const plan = async (options: PlanOptions): Promise<Plan> => {
  const { cues, instrument: source, settle = {}, without = [] } = options;
  const files = options.files ?? new DiskFiles();
  const { path, preset } = parseInstrumentSource(source);
  const instrument = await readSoundFont(files, path, preset, (parts) => sha256(...parts));
  const usages: FileUsage[] = [];
  const reel: CueFile[] = [];
  const findings: Finding[] = [];
  for await (const { file, score, findings: own } of readCues(files, cues, without)) {
    reel.push(file);
    findings.push(...own);
    if (score === null) usages.push(unreadableCue(file));
    else {
      usages.push(playCue(file, score, partsOf(score), instrument));
      findings.push(...ignoredPrograms(file, score, instrument));
    }
  }
  findings.push(...reelFindings(reel));
  return makePlan({ instrument, files: usages, settle, without, findings });
};

const isBankSelect = (number: number): boolean =>
  number === controllers.bankSelectMsb || number === controllers.bankSelectLsb;

/** One preset plays whatever a track asks for: program changes and bank selects are not followed. */
const ignoredPrograms = (
  { path }: CueFile,
  { tracks }: Score,
  { playedAs }: Instrument,
): readonly Finding[] => {
  if (playedAs === 'bank') return [];
  let events = 0;
  for (const { events: columns } of tracks) {
    columns.status.forEach((status, i) => {
      const kind = status & 0xf0;
      if (kind === 0xc0 || (kind === 0xb0 && isBankSelect(columns.data1[i]!))) events++;
    });
  }
  return events === 0 ? [] : [finding('note', 'programs-ignored', path, { events })];
};
