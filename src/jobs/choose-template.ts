import { dirname, isAbsolute, posix, relative, sep } from 'node:path';
import { sha256 } from '../files/digest.ts';
import { filesIn } from '../files/folder-files.ts';
import { parseInstrumentSource } from '../instruments/soundfont/source.ts';
import type { Plan } from '../keep/plan.ts';
import { singleTemplate } from '../template/single.ts';
import type { Template } from '../template/template.ts';
import { UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import { instrumentSource } from './instrument-source.ts';

/** The template's name where none is given. */
export const templateName = 'keepset.yaml';

export interface TemplateChoice {
  /** A template file; `keepset.yaml` in the working folder when neither is given. */
  readonly template?: string | undefined;
  /**
   * One instrument that plays everything instead: `FILE.sf2`, `FILE.sf2#bank:program`, `FILE.sfz`,
   * `FILE.csv`.
   */
  readonly instrument?: string | undefined;
  /** The octave of key 60 in a zone table given as `instrument`. */
  readonly middleC?: number | undefined;
}

/** A plan of one instrument goes on with that instrument, unless another is named. */
export const choiceForPlan = (
  { template, instrument, middleC }: TemplateChoice,
  { settings }: Pick<Plan, 'settings'>,
): TemplateChoice => ({
  template,
  instrument:
    instrument ?? (template === undefined ? (settings.instrument ?? undefined) : undefined),
  middleC,
});

/** A template and where its paths lead. */
export interface ChosenTemplate {
  readonly template: Template;
  /** The disk as seen from the template's folder. */
  readonly files: Files;
  /** The template's folder, seen from the working folder. */
  readonly folder: string;
}

/**
 * Reads the template that was asked for, or makes one for a single instrument.
 *
 * @throws {UsageError} when both or neither are there
 * @throws {TemplateError} when the template is not sound
 */
export const chooseTemplate = async (
  files: Files,
  { template, instrument, middleC }: TemplateChoice,
): Promise<ChosenTemplate> => {
  if (template !== undefined && instrument !== undefined) {
    throw new UsageError(
      'Give a template or one instrument, not both.',
      'Leave out --instrument, or name the instrument in the template.',
    );
  }
  if (instrument !== undefined) {
    const source = instrumentSource(instrument, middleC);
    return { template: singleTemplate(nameOf(instrument), source), files, folder: '.' };
  }
  const path = template ?? templateName;
  if (template === undefined && (await files.info(path)) === null) {
    throw new UsageError(
      `Which instruments do the cues play? There is no ${templateName} here.`,
      'Make one with keepset draft cues/ -o keepset.yaml, or name one instrument: --instrument bank.sf2',
    );
  }
  const { readTemplate } = await import('../template/read-template.ts');
  const folder = dirname(path).replaceAll(sep, '/');
  return {
    template: await readTemplate(files, path, (parts) => sha256(...parts)),
    files: filesIn(files, folder),
    folder,
  };
};

/** The file's name without its ending, with the preset if one is given. */
const nameOf = (written: string): string => {
  const { path, preset } = parseInstrumentSource(written);
  const name = path.slice(path.lastIndexOf('/') + 1).replace(/(?<=.)\.[^.]*$/, '');
  return preset === null ? name : `${name}#${String(preset.bank)}:${String(preset.program)}`;
};

/** Paths that were given in the working folder, as seen from the template's folder. */
export const seenFrom = (folder: string, paths: readonly string[]): readonly string[] =>
  folder === '.'
    ? paths
    : paths.map((path) =>
        isAbsolute(path) ? path : posix.normalize(relative(folder, path).replaceAll(sep, '/')),
      );
