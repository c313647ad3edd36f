import type { Instrument } from '../instruments/instrument.ts';
import { calibrate } from '../memory/calibrate.ts';
import type { Calibration } from '../memory/calibration.ts';
import type { FileUsage } from '../playback/zone-usage.ts';
import type { Template, TemplateInstrument } from '../template/template.ts';
import type { Finding } from '../terms/finding.ts';
import type { Settlements } from '../terms/settlement.ts';
import { settledAsPlain, type Subject } from './decision.ts';
import { tallyUsage } from './tally.ts';

/** A template with its instruments, and the usage of a reel. */
export interface SubjectInput {
  /** With the user's answers, headroom and pins from the command line put in. */
  readonly template: Template;
  /** Every instrument of the template, by id. */
  readonly instruments: ReadonlyMap<string, Instrument>;
  /** Usage of every cue file, in reel order. */
  readonly files: readonly FileUsage[];
}

/** The instruments of a template, each with all that decides what stays of it. */
export interface Subjects {
  /** In the order of the template, from the usage of tracks that are not audio already. */
  readonly subjects: readonly Subject[];
  /** The same with printed tracks counted as played. */
  readonly withPrinted: () => readonly Subject[];
  /** What was found while players were fitted to their readings. */
  readonly findings: readonly Finding[];
}

/** Counts the usage of a reel, instrument by instrument. */
export const subjectsOf = (input: SubjectInput): Subjects => {
  const { template, files } = input;
  const calibrated = template.instruments.map((one) =>
    calibrate(input.instruments.get(one.id)!, one.player, one.measured, template.path),
  );
  const from = (some: readonly FileUsage[]): readonly Subject[] =>
    template.instruments.map((one, i) =>
      subjectOf(input, one, some, calibrated[i]!.calibration, loadedCopies(files, one.id)),
    );
  return {
    subjects: from(files.map(withoutPrinted)),
    withPrinted: () => from(files),
    findings: calibrated.flatMap((one) => one.findings),
  };
};

const subjectOf = (
  { template, instruments }: SubjectInput,
  { id, machine, player, settle: own }: TemplateInstrument,
  files: readonly FileUsage[],
  calibration: Calibration,
  loaded: number,
): Subject => {
  const instrument = instruments.get(id)!;
  const settle: Settlements = { ...template.settle, ...own };
  const { headroom } = template;
  const byCopy = player.shares === 'copy';
  const excluded = settledAsPlain(settle);
  return {
    instrument,
    machine,
    player,
    calibration,
    settle,
    pins: template.pins.filter((pin) => pin.instrument === id),
    tally: tallyUsage(instrument, files, { excluded, headroom, byCopy }),
    loaded,
  };
};

/** Tracks that are audio already need nothing. */
export const withoutPrinted = (file: FileUsage): FileUsage =>
  file.copies.some(({ printed }) => printed)
    ? { ...file, copies: file.copies.filter(({ printed }) => !printed) }
    : file;

/** Copies of an instrument that the cues drive, those of printed tracks included; at least 1. */
const loadedCopies = (files: readonly FileUsage[], instrument: string): number => {
  const names = files.flatMap(({ copies }) =>
    copies.filter((copy) => copy.instrument === instrument).map(({ copy }) => copy),
  );
  return Math.max(1, new Set(names).size);
};
