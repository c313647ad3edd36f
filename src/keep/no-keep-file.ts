import type { Plan } from './plan.ts';

/** Why no keep file is made of a plan. */
export type NoKeepFile =
  /** Ids of cues that could not be read: what they need is unknown. */
  | { readonly why: 'unreadable'; readonly cues: readonly string[] }
  /** How many tracks no rule takes, so that what they play is unknown. */
  | { readonly why: 'unmapped'; readonly tracks: number };

/** null: a keep file can be written. */
export const noKeepFileOf = ({
  cues,
  findings,
  settings,
}: Pick<Plan, 'cues' | 'findings' | 'settings'>): NoKeepFile | null => {
  const unreadable = cues.filter(({ state }) => state === 'unreadable');
  if (unreadable.length > 0) return { why: 'unreadable', cues: unreadable.map(({ id }) => id) };
  const tracks = new Set(
    findings.flatMap((one) => (one.code === 'part-unmapped' ? one.args.tracks : [])),
  );
  if (tracks.size === 0 || settings.allowUnmapped) return null;
  return { why: 'unmapped', tracks: tracks.size };
};
