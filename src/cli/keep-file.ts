import type { Plan } from '../keep/plan.ts';
import { shellWord } from '../report/shell-word.ts';
import { UsageError } from '../terms/errors.ts';
import type { CommonOptions } from './options.ts';
import { writeOutput } from './output-file.ts';
import type { Host } from './streams.ts';

/** Why no keep file is made of a plan, or null: what an unreadable cue or an unrouted track needs is unknown. */
export const noKeepFile = (plan: Plan): UsageError | null => {
  const { cues } = plan;
  const unreadable = cues.filter(({ state }) => state === 'unreadable');
  if (unreadable.length === 0) return unmapped(plan);
  const options = unreadable.map(({ id }) => `--without ${shellWord(id)}`).join(' ');
  return new UsageError(
    `No keep file was written: ${String(unreadable.length)} of the cues could not be read.`,
    `Export them again, or leave them out on your own word: ${options}`,
  );
};

const unmapped = ({ findings, settings }: Plan): UsageError | null => {
  const tracks = new Set(
    findings.flatMap((one) => (one.code === 'part-unmapped' ? one.args.tracks : [])),
  );
  if (tracks.size === 0 || settings.allowUnmapped) return null;
  return new UsageError(
    `No keep file was written: no rule says what ${String(tracks.size)} of the tracks play.`,
    'Add rules to the template (keepset draft --update does), or leave the tracks aside on your own word: --allow-unmapped',
  );
};

/** Writes the keep file in one piece. */
export const writeKeepFile = async (
  out: string,
  result: Plan,
  options: CommonOptions,
  host: Host,
): Promise<void> => {
  const { toJson } = await import('../report/json.ts');
  const { withMessages } = await import('../report/messages.ts');
  await writeOutput(out, toJson(withMessages(result)), options, host);
};
