import { noKeepFileOf } from '../keep/no-keep-file.ts';
import type { Plan } from '../keep/plan.ts';
import { shellWord } from '../report/shell-word.ts';
import { UsageError } from '../terms/errors.ts';
import type { CommonOptions } from './options.ts';
import { writeOutput } from './output-file.ts';
import type { Host } from './streams.ts';

/** Why no keep file is made of a plan, or null: what an unreadable cue or an unrouted track needs is unknown. */
export const noKeepFile = (plan: Plan): UsageError | null => {
  const refused = noKeepFileOf(plan);
  if (refused === null) return null;
  if (refused.why === 'unmapped') return unmapped(refused.tracks);
  const options = refused.cues.map((id) => `--without ${shellWord(id)}`).join(' ');
  return new UsageError(
    `No keep file was written: ${String(refused.cues.length)} of the cues could not be read.`,
    `Export them again, or leave them out on your own word: ${options}`,
  );
};

const unmapped = (tracks: number): UsageError =>
  new UsageError(
    `No keep file was written: no rule says what ${String(tracks)} of the tracks play.`,
    'Add rules to the template (keepset draft --update does), or leave the tracks aside on your own word: --allow-unmapped',
  );

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
