/**
 * keepset as a library: one function per job. Each resolves to a plain value whose JSON is described
 * by a schema in `keepset/schemas/`, and rejects with an `InputError`, a `TemplateError` or a `UsageError`.
 */
export { demo } from './jobs/demo.ts';
export { draft, type DraftOptions } from './jobs/draft.ts';
export { inspect, type InspectOptions } from './jobs/inspect.ts';
export { plan, type PlanOptions } from './jobs/plan.ts';
export { usage, type UsageOptions } from './jobs/usage.ts';
export { InputError, TemplateError, UsageError } from './terms/errors.ts';
export type { Finding, FindingCode, Place, Severity } from './terms/finding.ts';
export type { FileInfo, Files, OpenFile } from './terms/files.ts';
export type { DoubtName } from './terms/doubt.ts';
export type * from './draft/draft.ts';
export type * from './keep/inspect.ts';
export type * from './keep/plan.ts';
export type * from './playback/note-usage.ts';
export { messageOf } from './report/messages.ts';
