import type { Trim } from '../trim/trim.ts';
import { bullets } from './bullets.ts';
import { formatBytes, plural } from './format.ts';
import type { Look } from './look.ts';
import { nameInText } from './name-list.ts';
import { shellWord } from './shell-word.ts';
import { hasErrors, isProved, writesAny } from './trim-verdict.ts';

/** What the user named: where the result goes and the keep file it was made by. */
export interface TrimNames {
  readonly out: string;
  readonly keep: string;
  /** The template, where one was named. */
  readonly template?: string | undefined;
}

const fullOnes =
  'Keep the full instruments somewhere safe: what was left out is in them and nowhere else.';

const steps = (trim: Trim, names: TrimNames, look: Look): readonly string[] => {
  const out = names.out.replace(/(?<=.)\/+$/u, '');
  const shown = nameInText(out, look);
  const keep = shellWord(names.keep);
  const template = names.template === undefined ? '' : ` --template ${shellWord(names.template)}`;
  if (trim.dryRun) {
    return writesAny(trim) && !hasErrors(trim)
      ? [
          `Type keepset trim --keep ${keep} --out ${shellWord(out)} to write it, with the other options as they were, without --dry-run.`,
          fullOnes,
        ]
      : [fullOnes];
  }
  if (!isProved(trim)) return [fullOnes];
  const bytes = trim.files.reduce((sum, file) => sum + file.bytes, 0);
  return [
    `Point the player at the files in ${shown} (${plural(trim.files.length, 'file')}, ${formatBytes(bytes)}; trim.json there lists them), and leave names and folders in it as they are.`,
    `keepset plan --template ${shellWord(`${out}/keepset.yaml`)} plans the smaller set.`,
    `Before a session hold revised cues against the keep file, with the full instruments: keepset check new-cue.mid --keep ${keep}${template}. The smaller instruments can not tell what they lack.`,
    fullOnes,
  ];
};

/** How to use it, and the caution that holds in any case. */
export const trimNext = (trim: Trim, names: TrimNames, look: Look): readonly string[] =>
  bullets(
    'What to do next',
    steps(trim, names, look).map((sentence) => [sentence]),
    look,
  );
