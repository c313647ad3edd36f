import type { BankFindings } from './findings/banks.ts';
import type { CheckFindings } from './findings/checks.ts';
import type { CueFindings } from './findings/cues.ts';
import type { DiffFindings } from './findings/diffs.ts';
import type { KeepFileFindings } from './findings/keep-files.ts';
import type { MemoryFindings } from './findings/memories.ts';
import type { MidiFindings } from './findings/midi.ts';
import type { OutlineFindings } from './findings/outlines.ts';
import type { PlanFindings } from './findings/plans.ts';
import type { PlayerFindings } from './findings/players.ts';
import type { PrimerFindings } from './findings/primers.ts';
import type { ReportFindings } from './findings/reports.ts';
import type { RouteFindings } from './findings/routes.ts';
import type { SampleFindings } from './findings/samples.ts';
import type { SfzFindings } from './findings/sfz.ts';
import type { TableFindings } from './findings/tables.ts';
import type { TemplateFindings } from './findings/templates.ts';
import type { TrimFindings } from './findings/trims.ts';
import type { UsageFileFindings } from './findings/usage-files.ts';
import type { WhyFindings } from './findings/whys.ts';
import type { WorklistFindings } from './findings/worklists.ts';
import type { YamlFindings } from './findings/yaml.ts';

/** error: the result can't be trusted or was not made; warning: read before relying; note: good to know. */
export type Severity = 'error' | 'warning' | 'note';

/** Where in a file. Tracks count from 0, bars, beats, lines and columns from 1, bytes from 0. */
export interface Place {
  readonly track?: number;
  readonly tick?: number;
  readonly bar?: number;
  readonly beat?: number;
  readonly byte?: number;
  readonly line?: number;
  readonly column?: number;
}

/**
 * Every finding there is and what its message needs. The wording lives in `report/messages`; a
 * finding never holds a sentence.
 */
export interface FindingArgs
  extends
    MidiFindings,
    CueFindings,
    DiffFindings,
    BankFindings,
    KeepFileFindings,
    TemplateFindings,
    TableFindings,
    SfzFindings,
    SampleFindings,
    UsageFileFindings,
    RouteFindings,
    PlayerFindings,
    PlanFindings,
    CheckFindings,
    MemoryFindings,
    OutlineFindings,
    PrimerFindings,
    ReportFindings,
    TrimFindings,
    WhyFindings,
    WorklistFindings,
    YamlFindings {}

export type FindingCode = keyof FindingArgs;

/** A message as data: what was found and where. */
export type Finding = {
  readonly [Code in FindingCode]: {
    readonly code: Code;
    readonly severity: Severity;
    /** The file it is about, as the user named it; null when it is about the whole run. */
    readonly file: string | null;
    readonly at: Place | null;
    readonly args: FindingArgs[Code];
  };
}[FindingCode];

/** Makes a finding; `Code` ties `args` to `code`. */
export const finding = <Code extends FindingCode>(
  severity: Severity,
  code: Code,
  file: string | null,
  args: FindingArgs[Code],
  at: Place | null = null,
): Finding => ({ code, severity, file, at, args }) as Finding;
