import type { Finding, FindingArgs, FindingCode } from '../../terms/finding.ts';

/** A rule as it is written, in `keepset.yaml` or in a row of `tracks.csv`. */
export interface RouteFields {
  /** Patterns, any of which may match; null where `join` stands instead. */
  readonly tracks: readonly string[] | null;
  /** Patterns of tracks that drive one copy; null where `tracks` stands instead. */
  readonly join: readonly string[] | null;
  /** The same word in several rules joins their tracks. */
  readonly joinWord: string | null;
  readonly cue: string | null;
  /** From 1. */
  readonly port: number | null;
  /** From 1. */
  readonly channel: number | null;
  /** Ids; none with `ignore`. */
  readonly instruments: readonly string[];
  /** With `{captures}`; empty is as good as null. */
  readonly articulation: string | null;
  /** Semitones. */
  readonly transpose: number;
  /** Factor. */
  readonly velocity: number;
  readonly controllers: ReadonlyMap<number, number>;
  readonly printed: boolean;
  readonly ignore: boolean;
}

/** Why a rule can't be: an error, and where in the rule it is; null: in the rule as a whole. */
export interface RouteProblem {
  readonly problem: Finding;
  readonly field: keyof RouteFields | null;
}

/** Makes the problem of a rule whose file and place are known. */
export type Refuse = <Code extends FindingCode>(
  field: keyof RouteFields | null,
  code: Code,
  args: FindingArgs[Code],
) => RouteProblem;
