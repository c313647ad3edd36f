import { withoutVersion } from './cue-name.ts';

/** What versions are told by. */
export interface Versioned {
  /** The cue's id. */
  readonly cue: string;
  readonly version: number | null;
}

/** A cue of which older versions were left aside. */
export interface OlderVersions {
  /** Id less the version. */
  readonly cue: string;
  readonly newest: string;
  /** Ids of the others, the oldest first. */
  readonly older: readonly string[];
}

/** No version counts as older than any. */
const rank = ({ version }: Versioned): number => version ?? -1;

/**
 * Of each cue the newest version alone: all of its files, in the order in which they came.
 *
 * @returns those that count, and what was left aside, by cue in order of appearance
 */
export const newestOnly = <Cue extends Versioned>(
  cues: readonly Cue[],
): { readonly newest: readonly Cue[]; readonly left: readonly OlderVersions[] } => {
  const best = new Map<string, Cue>();
  for (const one of cues) {
    const number = withoutVersion(one.cue);
    const known = best.get(number);
    if (known === undefined || rank(one) > rank(known)) best.set(number, one);
  }
  const newest: Cue[] = [];
  const older = new Map<string, Map<string, Cue>>();
  for (const one of cues) {
    const number = withoutVersion(one.cue);
    if (rank(one) === rank(best.get(number)!)) newest.push(one);
    else older.set(number, (older.get(number) ?? new Map<string, Cue>()).set(one.cue, one));
  }
  const left = [...older].map(([cue, some]): OlderVersions => ({
    cue,
    newest: best.get(cue)!.cue,
    older: [...some.values()].sort((a, b) => rank(a) - rank(b)).map((one) => one.cue),
  }));
  return { newest, left };
};
