import { DiskFiles } from '../files/disk-files.ts';
import { checkFolder, FolderDraft } from '../files/folder-draft.ts';
import { PlannedFiles } from '../files/planned-files.ts';
import type { Plan } from '../keep/plan.ts';
import { toJson } from '../report/json.ts';
import { withMessages } from '../report/messages.ts';
import type { Files } from '../terms/files.ts';
import { InputError, TemplateError } from '../terms/errors.ts';
import { finding, type Finding } from '../terms/finding.ts';
import { bytesOf, type OutputFile } from '../trim/output-file.ts';
import type { Trim } from '../trim/trim.ts';
import { plan } from './plan.ts';
import { prepareTrim, type PreparedTrim } from './prepare-trim.ts';
import { templateName, type TemplateChoice } from './choose-template.ts';
import { trimResult } from './trim-result.ts';
import { provenBy } from './trim-proof.ts';

export interface TrimOptions extends TemplateChoice {
  /** The keep file. */
  readonly keep: string;
  /** The folder to write: new, empty, or one that was written before. */
  readonly out: string;
  /** Writes again what was written before. */
  readonly force?: boolean;
  /** Writes nothing. */
  readonly dryRun?: boolean;
  /** Ids of damaged cues that count as they were read, on the user's word. */
  readonly acceptDamage?: readonly string[];
  /** Ids of cues that look incomplete and are whole, on the user's word. */
  readonly acceptPartial?: readonly string[];
  /** Parts that no rule takes are left aside on the user's word. */
  readonly allowUnmapped?: boolean;
  /** Told as the writing goes on: bytes written, and bytes in all. */
  readonly onProgress?: (done: number, total: number) => void;
}

/** Lists all that was written, and how; the mark by which a folder is known as this tool's. */
const listName = 'trim.json';

/**
 * Writes smaller instruments: what a plan keeps, and no more. The folder is made beside its place, read
 * back, and the score is played through it; only then it takes its place. Nothing else is changed.
 *
 * @throws {InputError} when an input is not what the plan was made with or usage is not wholly known, when
 *   something can't be read or written, when the result does not do what the full instruments do
 */
export const trim = async (options: TrimOptions): Promise<Trim> => {
  const disk = new DiskFiles();
  const { out, force = false, dryRun = false, onProgress = () => undefined } = options;
  const prepared = await prepareTrim(disk, options);
  const { outputs, inputs } = prepared;
  const bytes = outputs.reduce((sum, file) => sum + bytesOf(file), 0);
  if (dryRun) {
    await checkFolder(out, { force, inputs, bytes });
    const { realOut } = prepared;
    const small = await smallPlan(new PlannedFiles(disk, realOut, outputs), realOut, prepared);
    return trimResult(prepared, small, { dryRun, proof: null, findings: [] });
  }
  const draft = await FolderDraft.open(out, { force, inputs, bytes });
  try {
    await writeAll(draft, outputs, (done) => onProgress(done, bytes));
    const small = await smallPlan(disk, draft.folder, prepared);
    const { proof, findings } = provenBy(prepared, small);
    const result = trimResult(prepared, small, { dryRun, proof, findings });
    const text = new TextEncoder().encode(toJson(withMessages(result)));
    await draft.write({ path: listName, pieces: [{ kind: 'bytes', bytes: text }] });
    const old = await draft.finish();
    if (old === null) return result;
    const left = finding('warning', 'trim-old-left', out, { path: old });
    return { ...result, findings: [...result.findings, left] };
  } catch (error) {
    await draft.discard();
    throw atItsPlace(error, draft.folder, out);
  }
};

const writeAll = async (
  draft: FolderDraft,
  files: readonly OutputFile[],
  onBytes: (done: number) => void,
): Promise<void> => {
  let done = 0;
  for (const file of files) {
    await draft.write(file, (bytes) => {
      done += bytes;
      onBytes(done);
    });
  }
};

/** The plan of the smaller instruments, as a person makes it, for the cues of the plan and no others. */
const smallPlan = (files: Files, folder: string, { leftOut }: PreparedTrim): Promise<Plan> =>
  plan({ template: `${folder}/${templateName}`, without: leftOut, files });

/** A fault of what was to be written is told of the place where it would have been. */
const atItsPlace = (error: unknown, draft: string, out: string): unknown => {
  if (!(error instanceof InputError || error instanceof TemplateError)) return error;
  const moved = (one: Finding): Finding =>
    one.file?.startsWith(draft) === true
      ? { ...one, file: out + one.file.slice(draft.length) }
      : one;
  const others = error.others.map(moved);
  return error instanceof InputError
    ? new InputError(moved(error.finding), others)
    : new TemplateError(moved(error.finding), others);
};
