import { DiskFiles } from '../files/disk-files.ts';
import type { AtHand } from '../keep/compare/at-hand.ts';
import type { Diff } from '../keep/compare/diff.ts';
import {
  instrumentsToLookAt,
  makeDiff,
  type Absence,
  type LookedFor,
} from '../keep/compare/make-diff.ts';
import type { Plan } from '../keep/plan.ts';
import { calibrate } from '../memory/calibrate.ts';
import type { Template, TemplateInstrument } from '../template/template.ts';
import { InputError, TemplateError, UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import {
  chooseTemplate,
  templateName,
  type ChosenTemplate,
  type TemplateChoice,
} from './choose-template.ts';
import { loadKeepFile } from './keep-file.ts';
import { loadInstruments } from './load-instruments.ts';

export interface DiffOptions extends TemplateChoice {
  /** The keep file of what is loaded now. */
  readonly from: string;
  /** The keep file of what is to be loaded. */
  readonly to: string;
  /** Where files are read from; the disk when left out. */
  readonly files?: Files;
}

/**
 * Compares two keep files: what is to be loaded and unloaded to go from one to the other. Zones come
 * from the files alone. For bytes and keys the instruments are looked for: those of the template or
 * instrument that is named, else of the instrument that the plans were made with, else of the
 * template in the working folder. Where they are not there a finding says so.
 *
 * @throws {InputError} when a keep file, or an instrument that was named, can't be read
 * @throws {TemplateError} when the template that was named is not sound
 * @throws {UsageError} when both a template and an instrument are named
 */
export const diff = async (options: DiffOptions): Promise<Diff> => {
  const disk = options.files ?? new DiskFiles();
  const from = await loadKeepFile(disk, options.from);
  const to = await loadKeepFile(disk, options.to);
  const ids = instrumentsToLookAt(from.plan, to.plan);
  const chosen = await chosenFor(disk, options, [to.plan, from.plan], ids.length > 0);
  const lookedFor =
    typeof chosen === 'string'
      ? { atHand: new Map(), absent: new Map(ids.map((id) => [id, chosen])) }
      : await lookFor(ids, chosen, options.instrument !== undefined);
  return makeDiff(from, to, lookedFor);
};

const isInput = (error: unknown): boolean =>
  error instanceof InputError || error instanceof TemplateError || error instanceof UsageError;

/** The template to find instruments by. One that nobody named may be missing or not sound. */
const chosenFor = async (
  files: Files,
  { template, instrument, middleC }: DiffOptions,
  plans: readonly Plan[],
  isNeeded: boolean,
): Promise<ChosenTemplate | Absence> => {
  if (template !== undefined || instrument !== undefined) {
    return chooseTemplate(files, { template, instrument, middleC });
  }
  if (!isNeeded) return 'no-template';
  const single = plans.map(({ settings }) => settings.instrument).find((one) => one !== null);
  try {
    if (single !== undefined) return await chooseTemplate(files, { instrument: single, middleC });
    if ((await files.info(templateName)) === null) return 'no-template';
    return await chooseTemplate(files, {});
  } catch (error) {
    if (!isInput(error)) throw error;
    return 'template';
  }
};

/**
 * Reads the instruments of a template that are asked for.
 *
 * @param isStrict it was named: it is read in any case, and not to be able to is an error
 */
const lookFor = async (
  ids: readonly string[],
  { template, files }: ChosenTemplate,
  isStrict: boolean,
): Promise<LookedFor> => {
  const atHand = new Map<string, AtHand>();
  const absent = new Map<string, Absence>();
  for (const id of ids) {
    if (!template.instruments.some((one) => one.id === id)) absent.set(id, 'unlisted');
  }
  const wanted = template.instruments.filter(({ id }) => isStrict || ids.includes(id));
  for (const some of bySource(wanted)) {
    try {
      const loaded = await loadInstruments(files, { instruments: some, path: template.path });
      for (const one of some) atHand.set(one.id, handed(one, template, loaded));
    } catch (error) {
      if (isStrict || !isInput(error)) throw error;
      for (const { id } of some) absent.set(id, 'unreadable');
    }
  }
  return { atHand, absent };
};

/** Instruments of one file together: it is read once. */
const bySource = (
  instruments: readonly TemplateInstrument[],
): readonly (readonly TemplateInstrument[])[] => {
  const groups = new Map<string, TemplateInstrument[]>();
  for (const one of instruments) {
    const key = JSON.stringify(one.source);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [one]);
    else group.push(one);
  }
  return [...groups.values()];
};

const handed = (
  { id, player, measured }: TemplateInstrument,
  { path }: Template,
  loaded: Awaited<ReturnType<typeof loadInstruments>>,
): AtHand => {
  const instrument = loaded.get(id)!;
  const { calibration } = calibrate(instrument, player, measured, path);
  return { instrument, player, calibration };
};
