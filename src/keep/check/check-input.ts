import type { Instrument } from '../../instruments/instrument.ts';
import type { FileUsage } from '../../playback/zone-usage.ts';
import type { Template } from '../../template/template.ts';
import type { Finding } from '../../terms/finding.ts';
import type { Plan } from '../plan.ts';
import type { CheckedLoaded } from './check.ts';

/** All that a check is made from. */
export interface CheckInput {
  /** With `loaded`: the plan as if it kept what is loaded. */
  readonly keep: { readonly path: string; readonly sha256: string; readonly plan: Plan };
  readonly loaded: CheckedLoaded | null;
  readonly template: Template;
  /** Every instrument of the template, by id. */
  readonly instruments: ReadonlyMap<string, Instrument>;
  /** Usage of every checked cue file, in reel order, with every place. */
  readonly files: readonly FileUsage[];
  /** Ids of cues that are whole by the user's word. */
  readonly accepted: readonly string[];
  /** Ids of cues that were named and left out. */
  readonly leftOut: readonly string[];
  /** What was met on the way. */
  readonly findings: readonly Finding[];
}
