import type { Instrument } from '../instruments/instrument.ts';
import { makePlan } from '../keep/make-plan.ts';
import type { Plan } from '../keep/plan.ts';
import { partsOf } from '../midi/parts.ts';
import { readMidi } from '../midi/read-midi.ts';
import type { FileUsage } from '../playback/zone-usage.ts';
import { chooseBase } from '../primer/copies/choose-base.ts';
import { compose, type Composed } from '../primer/compose/compose.ts';
import type { ExcerptChoice, OpenedCue } from '../primer/compose/input.ts';
import { stayingZones } from '../primer/hearing/compare.ts';
import { RouteLog } from '../template/routes/route-log.ts';
import { routeScore } from '../template/routes/route-score.ts';
import type { Template } from '../template/template.ts';
import { inputError, UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import type { TrimAccepted } from '../trim/trim.ts';
import type { TemplateChoice } from './choose-template.ts';
import { checkCueIds } from './find-reel.ts';
import { keepInputs, type KeepInputs } from './keep-inputs.ts';
import { inputAgain } from './plan-again.ts';
import { playAsCue } from './play-as-cue.ts';
import { acceptedOf, refuseUnknown, type Acceptance } from './trim-acceptance.ts';
import type { Watched } from './work-step.ts';

/** What decides a primer beside the keep file. */
export interface PrimerChoice extends TemplateChoice, Acceptance, Watched {
  /** The keep file. */
  readonly keep: string;
  /** Only what this machine holds is loaded, by its id. */
  readonly machine?: string | undefined;
  /** What is taken from the cues: what no notes can be made for, nothing, or everything. */
  readonly excerpts?: ExcerptChoice;
  /** Notes a second per machine at most; 8 when left out. */
  readonly pace?: number | undefined;
  /** Id of the cue whose export gives the tracks; chosen when left out. */
  readonly base?: string | undefined;
}

/** A primer that was made and played, and what it was made of. */
export interface PreparedPrimer extends KeepInputs {
  readonly composed: Composed;
  readonly accepted: TrimAccepted;
  /** Usage of the planned cues, with every place. */
  readonly usage: readonly FileUsage[];
  readonly base: FileUsage;
}

/** Notes a second where nothing else is said: few enough for a player to load while it plays. */
const usualPace = 8;

/**
 * Makes a primer in memory.
 *
 * @throws {InputError} when an input is not what the plan was made with, usage is not wholly known, or
 *   no primer loads the keep set alone
 * @throws {UsageError} when there is no such cue or machine
 */
export const preparePrimer = async (disk: Files, choice: PrimerChoice): Promise<PreparedPrimer> => {
  const inputs = await keepInputs(disk, choice.keep, choice, 'primer');
  const { keep, plan, template, files, instruments } = inputs;
  const { machine = null, excerpts = 'auto', pace = usualPace } = choice;
  checkChoice(plan, template, choice);
  const { input } = await inputAgain(files, plan, template, instruments, true, choice.onStep);
  await choice.onStep?.({ doing: 'working out', name: 'the primer', count: null });
  const full = makePlan(input);
  const doubts = plan.findings.filter(({ code }) => code === 'cue-looks-partial');
  const known = { ...full, findings: [...full.findings, ...doubts] };
  const accepted = acceptedOf(known, choice);
  refuseUnknown(known, accepted, keep.path, 'primer');
  refuseLess(plan, full, keep.path);
  if (!hasAny(plan, instruments, machine)) throw inputError('primer-nothing', keep.path, {});
  const named = input.files.filter(({ cue }) => cue === (choice.base ?? cue));
  const base = chooseBase(named);
  if (base === null) throw inputError('primer-no-base', keep.path, { cue: choice.base ?? null });
  const open = opener(files, template, instruments);
  const opened = await open(base);
  const { format } = opened.score;
  const composed = await compose({
    plan,
    instruments,
    files: input.files,
    base: opened,
    open,
    play: (bytes) => playAsCue(bytes, base.path, base, format, template, instruments).usage,
    excerpts,
    machine,
    pace,
  });
  if (composed === null) throw inputError('primer-unmet', keep.path, {});
  return { ...inputs, composed, accepted, usage: input.files, base };
};

const checkChoice = (
  { cues }: Plan,
  { machines }: Template,
  { base, machine }: PrimerChoice,
): void => {
  if (base !== undefined) {
    checkCueIds(
      cues.map(({ id }) => id),
      [base],
    );
  }
  if (machine === undefined || machines.some(({ id }) => id === machine)) return;
  throw new UsageError(
    `No machine is called "${machine}".`,
    `The machines are ${machines.map(({ id }) => id).join(', ')}.`,
  );
};

/** What the cues need has to be in the keep file, whoever edited it. */
const refuseLess = (plan: Plan, full: Plan, path: string): void => {
  for (const { id, kept } of full.instruments) {
    const own = plan.instruments.find((one) => one.id === id)?.kept ?? [];
    const stays = new Set(own.map(({ zone }) => zone));
    const lacking = kept.filter(({ zone }) => !stays.has(zone));
    if (lacking.length === 0) continue;
    throw inputError('primer-keep-lacks', path, { instrument: id, zones: lacking.length });
  }
};

const hasAny = (
  plan: Plan,
  instruments: ReadonlyMap<string, Instrument>,
  machine: string | null,
): boolean =>
  plan.instruments.some(
    (one) =>
      (machine ?? one.machine) === one.machine &&
      stayingZones(instruments.get(one.id)!, one).some(({ kept }) => kept.includes(1)),
  );

/** Reads and routes each cue file once. */
const opener = (
  files: Files,
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
): ((file: FileUsage) => Promise<OpenedCue>) => {
  const opened = new Map<FileUsage, Promise<OpenedCue>>();
  const open = async (file: FileUsage): Promise<OpenedCue> => {
    const score = readMidi(await files.read(file.path), file.path);
    const parts = partsOf(score);
    const log = new RouteLog();
    const routed = routeScore(template, file.cue, score, parts, file.file, instruments, log);
    return { file, score, routed };
  };
  return (file) => {
    let found = opened.get(file);
    if (found === undefined) opened.set(file, (found = open(file)));
    return found;
  };
};
