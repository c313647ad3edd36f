import { dirname, join, relative, sep } from 'node:path';
import type { PlayedCue } from '../draft/collect-tracks.ts';
import { draftTemplate } from '../draft/draft-template.ts';
import type { Draft, DraftOutline } from '../draft/draft.ts';
import type { OutlinesWanted } from '../draft/outlines-wanted.ts';
import { RoutedParts } from '../draft/routed-parts.ts';
import { SwitchPresses } from '../draft/switch-presses.ts';
import { updateTemplate } from '../draft/update-template.ts';
import { sha256 } from '../files/digest.ts';
import { DiskFiles } from '../files/disk-files.ts';
import { isDamaged, type Score } from '../midi/score.ts';
import { countNotes } from '../playback/count-notes.ts';
import type { PartNotes } from '../playback/note-usage.ts';
import type { CueFile } from '../playback/play-cue.ts';
import { readTemplate } from '../template/read-template.ts';
import { TemplateError, UsageError } from '../terms/errors.ts';
import type { Files } from '../terms/files.ts';
import type { Finding } from '../terms/finding.ts';
import { chooseTemplate, seenFrom, templateName } from './choose-template.ts';
import { readCues, reelFindings } from './read-cues.ts';

export interface DraftOptions {
  /** Files, folders or patterns. */
  readonly cues: readonly string[];
  /** The file that the draft is for: its own paths are seen from there. Nothing is written. */
  readonly path?: string;
  /** A template to which the tracks are added that it has no rules for; instead of `path`. */
  readonly update?: { readonly path: string };
  /**
   * A folder. Each new instrument gets an outline to fill in there, instead of a file to name. Nothing
   * is written; the result says what is there already.
   */
  readonly outlines?: string;
  /** The octave of key 60 in those outlines, as the manuals of the libraries have it; 4 when left out. */
  readonly middleC?: number;
  /** Ids of cues to leave out. */
  readonly without?: readonly string[];
  /** Where files are read from; the disk when left out. */
  readonly files?: Files;
}

/**
 * Drafts a template from the tracks of cues, or adds what is new in them to a template.
 *
 * @throws {InputError} when an argument names nothing
 * @throws {TemplateError} when the template to add to is not sound
 * @throws {UsageError} when a cue to leave out does not exist, or there are more tracks than a
 *   template can hold
 */
export const draft = async (options: DraftOptions): Promise<Draft> => {
  const { cues, update, path = templateName, outlines, middleC = 4, without } = options;
  const files = options.files ?? new DiskFiles();
  const presses = new SwitchPresses();
  const wanted =
    outlines === undefined ? null : placed(outlines, update?.path ?? path, middleC, presses);
  const made =
    update === undefined
      ? await firstDraft(files, path, cues, without, wanted, presses)
      : await updated(files, update.path, cues, without, wanted, presses);
  return { ...made, outlines: await checkedOutlines(files, made.outlines) };
};

/** @throws {UsageError} when a template can't name the folder */
const placed = (
  folder: string,
  template: string,
  middleC: number,
  presses: SwitchPresses,
): OutlinesWanted => {
  const fromTemplate = relative(dirname(template), folder).replaceAll(sep, '/');
  if (fromTemplate.includes('\\')) {
    throw new UsageError(
      'The folder for outlines has a backslash in its name, which a template does not allow.',
      'Name another folder: --outlines outlines',
    );
  }
  return {
    folder: join(folder),
    fromTemplate,
    middleC,
    pressesOf: (part) => presses.of(part),
  };
};

/** Each as it will be read, and whether its place is taken. */
const checkedOutlines = async (
  files: Files,
  drafted: readonly DraftOutline[],
): Promise<readonly DraftOutline[]> => {
  if (drafted.length === 0) return [];
  const { parseOutline } = await import('../instruments/outline/reading/parse-outline.ts');
  const outlines: DraftOutline[] = [];
  for (const one of drafted) {
    const isThere = (await files.info(one.path)) !== null;
    if (!isThere) {
      try {
        parseOutline(one.path, new TextEncoder().encode(one.text));
      } catch (error) {
        throw new Error(`an outline that can't be read: ${String(error)}`, { cause: error });
      }
    }
    outlines.push({ ...one, isThere });
  }
  return outlines;
};

const firstDraft = async (
  files: Files,
  path: string,
  args: readonly string[],
  without: readonly string[] | undefined,
  outlines: OutlinesWanted | null,
  presses: SwitchPresses,
): Promise<Draft> => {
  const count = ({ cue, file }: CueFile, score: Score): readonly PartNotes[] => {
    const parts = countNotes(score, file);
    if (outlines !== null) presses.add(cue, score, parts);
    return parts;
  };
  const { cues, findings } = await countCues(files, args, without, count);
  const result = draftTemplate(cues, patternsFrom(path, args), findings, outlines);
  await readBack(files, path, result.text);
  return result;
};

const updated = async (
  files: Files,
  path: string,
  args: readonly string[],
  without: readonly string[] | undefined,
  outlines: OutlinesWanted | null,
  presses: SwitchPresses,
): Promise<Draft> => {
  const chosen = await chooseTemplate(files, { template: path });
  // A mark at the beginning is part of what stays as it is.
  const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(await files.read(path));
  const parts = new RoutedParts(chosen.template);
  const own = seenFrom(chosen.folder, args);
  const { cues, findings } = await countCues(chosen.files, own, without, ({ cue, file }, score) => {
    const counted = parts.count(cue, file, score);
    if (outlines !== null) presses.add(cue, score, counted);
    return counted;
  });
  const result = updateTemplate(text, cues, parts.standing(text), findings, outlines);
  if (result.text !== text) await readBack(files, path, result.text);
  return result;
};

/** What each cue plays; a cue that can't be read plays nothing that is known. */
const countCues = async (
  files: Files,
  args: readonly string[],
  without: readonly string[] | undefined,
  count: (file: CueFile, score: Score) => readonly PartNotes[],
): Promise<{ readonly cues: readonly PlayedCue[]; readonly findings: readonly Finding[] }> => {
  const cues: PlayedCue[] = [];
  const reel: CueFile[] = [];
  const findings: Finding[] = [];
  for await (const { file, score, findings: own } of readCues(files, args, { without })) {
    reel.push(file);
    findings.push(...own);
    cues.push(
      score === null
        ? { id: file.cue, state: 'unreadable', parts: [] }
        : {
            id: file.cue,
            state: isDamaged(score) ? 'damaged' : 'read',
            parts: count(file, score),
          },
    );
  }
  return { cues, findings: [...findings, ...reelFindings(reel)] };
};

/** What the user named, from the folder that the template will be in. */
const patternsFrom = (path: string, args: readonly string[]): readonly string[] => [
  ...new Set(args.map((arg) => relative(dirname(path), arg).replaceAll(sep, '/') || '.')),
];

/**
 * Reads a template as it will be, before it is written: what can't be read must not take the place of
 * what can.
 *
 * @throws {UsageError} when it is too large
 */
const readBack = async (files: Files, path: string, text: string): Promise<void> => {
  const bytes = new TextEncoder().encode(text);
  const asWritten: Files = {
    info: (asked) =>
      asked === path ? Promise.resolve({ kind: 'file', size: bytes.length }) : files.info(asked),
    read: (asked, offset = 0, length = bytes.length) =>
      asked === path
        ? Promise.resolve(bytes.slice(offset, offset + length))
        : files.read(asked, offset, length),
    open: (asked, use) =>
      asked === path
        ? use({
            size: bytes.length,
            read: (offset, length) => asWritten.read(path, offset, length),
          })
        : files.open(asked, use),
    list: (asked) => files.list(asked),
  };
  try {
    await readTemplate(asWritten, path, (parts) => sha256(...parts));
  } catch (error) {
    if (!(error instanceof TemplateError)) throw error;
    if (error.finding.code === 'template-too-large') {
      throw new UsageError(
        'These cues have more tracks, or longer names, than a template can hold.',
        'Draft from fewer cues, and write patterns for many tracks at once: "Vln *".',
      );
    }
    throw new Error(`a draft that can't be read: ${error.message}`, { cause: error });
  }
};
