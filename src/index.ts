/**
 * keepset as a library: one function per job. Each resolves to a plain value whose JSON is described
 * by a schema in `keepset/schemas/`, and rejects with an `InputError`, a `TemplateError` or a `UsageError`.
 */
export { check, type CheckOptions } from './jobs/check.ts';
export { demo } from './jobs/demo.ts';
export { diff, type DiffOptions } from './jobs/diff.ts';
export { draft, type DraftOptions } from './jobs/draft.ts';
export { inspect, type InspectOptions } from './jobs/inspect.ts';
export { memory, type MemoryOptions } from './jobs/memory.ts';
export { plan, type PlanOptions } from './jobs/plan.ts';
export { primer, type MadePrimer, type PrimerOptions } from './jobs/primer.ts';
export { report, type ReportOptions } from './jobs/report.ts';
export { page } from './jobs/report-page.ts';
export { verifyPrimer, type VerifyPrimerOptions } from './jobs/verify-primer.ts';
export { trim, type TrimOptions } from './jobs/trim.ts';
export { usage, type UsageOptions } from './jobs/usage.ts';
export { zoneUsage, type ZoneUsageOptions } from './jobs/zone-usage.ts';
export { why, type WhyOptions } from './jobs/why.ts';
export { worklist, type WorklistOptions } from './jobs/worklist.ts';
export { InputError, TemplateError, UsageError } from './terms/errors.ts';
export type { Finding, FindingCode, Place, Severity } from './terms/finding.ts';
export type { FileInfo, Files, OpenFile } from './terms/files.ts';
export type { DoubtName } from './terms/doubt.ts';
export type * from './draft/draft.ts';
export type * from './keep/check/check.ts';
export type * from './keep/compare/diff.ts';
export type * from './keep/inspect.ts';
export type * from './keep/plan.ts';
export type { UsageFile } from './keep/usage-file/stored.ts';
export type * from './keep/reel/reel-memory.ts';
export type * from './keep/why/why.ts';
export type * from './overview/overview.ts';
export type * from './overview/overview-instrument.ts';
export type * from './overview/overview-machines.ts';
export type * from './overview/overview-map.ts';
export type * from './overview/overview-playable.ts';
export type * from './overview/overview-proof.ts';
export type * from './overview/overview-steps.ts';
export type * from './playback/note-usage.ts';
export type * from './primer/primer.ts';
export type * from './trim/trim.ts';
export type * from './trim/worklist/worklist.ts';
export { messageOf } from './report/messages.ts';
