import { DiskFiles } from '../files/disk-files.ts';
import { findArticulation } from '../instruments/find-articulation.ts';
import type { Instrument } from '../instruments/instrument.ts';
import { controllerSteps } from '../keep/headroom-curve/ladder.ts';
import { partialCues } from '../keep/completeness.ts';
import type { PlanInput } from '../keep/make-plan.ts';
import { planCues } from '../keep/plan-cues.ts';
import { ascending } from '../playback/merge-usage.ts';
import type { UsageChoices } from '../playback/zone-usage.ts';
import { nearest } from '../notation/nearest.ts';
import type { Headroom, Pin, Template } from '../template/template.ts';
import { UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import type { Settlements } from '../terms/settlement.ts';
import { chooseTemplate, seenFrom, type TemplateChoice } from './choose-template.ts';
import { checkCueIds } from './find-reel.ts';
import { loadInstruments } from './load-instruments.ts';
import { olderCues } from './older-cues.ts';
import { isPartOfReel } from './part-of-reel.ts';
import { playReel } from './play-reel.ts';
import type { StoredReel } from './stored-reel.ts';
import type { Watched } from './work-step.ts';

/** What decides a plan, beside the files. */
export interface PlanOptions extends TemplateChoice, Watched {
  /** Files, folders or patterns; those of the template when left out. */
  readonly cues?: readonly string[];
  /** Doubts answered: `plain` lets go what is reached only through them, `accept` keeps it. */
  readonly settle?: Settlements;
  /** Room around what is played, over that of the template. */
  readonly headroom?: Partial<Headroom>;
  /** Kept regardless, beside the pins of the template: `INSTRUMENT` or `INSTRUMENT/ARTICULATION`. */
  readonly pins?: readonly string[];
  /** Ids of cues to leave out. */
  readonly without?: readonly string[];
  /** Of each cue only the newest version counts. */
  readonly newest?: boolean;
  /** Cues that look incomplete and are whole by the user's word. */
  readonly acceptPartial?: readonly string[];
  /** One file holds several cues: its markers part them; null: as the template says. */
  readonly split?: 'markers' | null;
  /** Files that `zoneUsage` has made, as seen from the working folder, in place of cues. */
  readonly usage?: readonly string[];
  /** List what fewer notes than this reach; null: no list. */
  readonly rare?: number | null;
  /** Find out how much room cues would have needed that nobody knew of. */
  readonly headroomCurve?: boolean;
  /** Parts that no rule takes are left aside on the user's word. */
  readonly allowUnmapped?: boolean;
  /** Where files are read from; the disk when left out. */
  readonly files?: Files;
}

/** All that a plan is made of, and where it lies. */
export interface PreparedPlan {
  readonly input: PlanInput;
  /** The disk as seen from the template's folder. */
  readonly files: Files;
  /** The template's folder, seen from the working folder. */
  readonly folder: string;
}

/**
 * Reads the template and its instruments, and plays the cues.
 *
 * @throws {InputError} when an argument names nothing, or an instrument can't be trusted
 * @throws {TemplateError} when the template is not sound
 * @throws {UsageError} when a preset, a cue to leave out or a pin is not well named
 */
export const preparePlan = async (options: PlanOptions): Promise<PreparedPlan> => {
  const { rare = null, headroomCurve = false, allowUnmapped = false } = options;
  const disk = options.files ?? new DiskFiles();
  const { template: written, files, folder } = await chooseTemplate(disk, options);
  const template = withChoices(written, options);
  const instruments = await loadInstruments(files, template, options.onStep);
  checkPins(options.pins ?? [], template, instruments);
  const { usage, older, findings, choices, isPartial } =
    options.usage === undefined || options.usage.length === 0
      ? await playedReel(files, folder, template, instruments, options)
      : await readReel(disk, options.usage, template, instruments, options);
  const played = planCues(usage);
  checkCueIds(
    played.map(({ id }) => id),
    choices.acceptPartial,
  );
  const input = {
    template,
    instruments,
    files: usage,
    reel: { ...choices, allowUnmapped },
    rare,
    headroomCurve,
    isPartial,
    findings: [...findings, ...partialCues(played, older, choices.acceptPartial)],
  };
  return { input, files, folder };
};

const choicesOf = (
  { without = [], newest = false, acceptPartial = [], split = null }: PlanOptions,
  template: Template,
): UsageChoices => ({
  without: ascending(without),
  newest,
  acceptPartial: ascending(acceptPartial),
  split: split ?? template.split,
});

const playedReel = async (
  files: Files,
  folder: string,
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
  options: PlanOptions,
): Promise<StoredReel> => {
  const cues = seenFrom(folder, options.cues ?? []);
  const choices = choicesOf(options, template);
  const isPartial = await isPartOfReel(files, template, cues);
  const { usage, leftOut, findings } = await playReel(files, template, instruments, {
    ...{ ...choices, cues, isPartial, onStep: options.onStep },
    // Few notes are counted one by one, and room is told exactly for each step that is tried.
    ...((options.rare ?? null) === null ? {} : { everyPlace: true as const }),
    ...(options.headroomCurve === true ? { furtherRooms: controllerSteps } : {}),
  });
  const older = await olderCues(files, choices.newest ? leftOut : []);
  return { usage, older, findings, choices, isPartial };
};

/** The same from usage files. */
const readReel = async (
  disk: Files,
  paths: readonly string[],
  template: Template,
  instruments: ReadonlyMap<string, Instrument>,
  options: PlanOptions,
): Promise<StoredReel> => {
  if (options.cues !== undefined && options.cues.length > 0) {
    throw new UsageError(
      'Give cues or usage, not both.',
      'Run keepset usage on these cues, and give that usage too: --usage one.json --usage two.json',
    );
  }
  const { storedReel } = await import('./stored-reel.ts');
  const further = options.headroomCurve === true ? controllerSteps : [];
  return storedReel(disk, paths, template, instruments, {
    ...choicesOf(options, template),
    controllerRooms: [template.headroom.controller, ...further],
    everyPlace: (options.rare ?? null) !== null,
  });
};

/** The template with what was said on the command line put in. */
const withChoices = (template: Template, options: PlanOptions): Template => {
  const { settle = {}, headroom = {}, pins = [] } = options;
  const ids = template.instruments.map(({ id }) => id);
  return {
    ...template,
    settle: { ...template.settle, ...settle },
    headroom: { ...template.headroom, ...headroom },
    pins: [...template.pins, ...pins.map((pin) => pinOf(pin, ids))],
  };
};

/** A pin that keeps nothing is a slip of the hand: on the command line there is someone to ask. */
const checkPins = (
  given: readonly string[],
  { pins }: Template,
  instruments: ReadonlyMap<string, Instrument>,
): void => {
  for (const { instrument, articulation } of pins.slice(pins.length - given.length)) {
    if (articulation === null) continue;
    const { articulations } = instruments.get(instrument)!;
    const { indices, near } = findArticulation(articulations, articulation);
    if (indices.length > 0) continue;
    throw new UsageError(
      `A pin names "${articulation}", and ${instrument} has no such articulation.`,
      near === null
        ? `It has ${articulations
            .map(({ name }) => name)
            .slice(0, 20)
            .join(', ')}.`
        : `Did you mean "${near}"?`,
    );
  }
};

/** A slash may be part of an id: the longest id that fits is meant. */
const pinOf = (text: string, ids: readonly string[]): Pin => {
  const fitting = ids.filter((id) => text === id || text.startsWith(`${id}/`));
  const instrument = fitting.sort((a, b) => b.length - a.length)[0];
  if (instrument === undefined) {
    const near = nearest(text.replace(/\/.*/s, ''), ids);
    throw new UsageError(
      `A pin names "${text}", and there is no such instrument.`,
      near === null ? `There are ${ids.slice(0, 20).join(', ')}.` : `Did you mean "${near}"?`,
    );
  }
  const articulation = text === instrument ? null : text.slice(instrument.length + 1);
  return { instrument, articulation, keys: null, velocities: null, at: null };
};
