import type { Starts } from './fluid-log.ts';

/** A note (`"channel,key,velocity"`) whose voices in the log are not what the engine says. */
export interface StartDifference {
  readonly start: string;
  /** Voices that the synthesiser started. */
  readonly log: number;
  /** Voices by the plain reading. */
  readonly plain: number;
  /** Voices by the plain reading or through any doubt. */
  readonly union: number;
}

/** All differences between the log and the plain reading, sorted. */
export const startDifferences = (
  log: Starts,
  plain: Starts,
  union: Starts,
): readonly StartDifference[] =>
  [...new Set([...log.keys(), ...plain.keys()])]
    .map((start) => ({
      start,
      log: log.get(start) ?? 0,
      plain: plain.get(start) ?? 0,
      union: union.get(start) ?? 0,
    }))
    .filter((one) => one.log !== one.plain)
    .sort((a, b) => (a.start < b.start ? -1 : 1));

/** Voices that neither the plain reading nor any doubt foresees: a note that may be lost. */
export const unforeseen = (differences: readonly StartDifference[]): readonly StartDifference[] =>
  differences.filter(({ log, union }) => log > union);
