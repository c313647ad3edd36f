import type { Finding, FindingCode } from '../../terms/finding.ts';

/** What nobody can vouch for: something was not read, not routed, not there, or not what was planned. */
const open: ReadonlySet<FindingCode> = new Set<FindingCode>([
  'check-template-changed',
  'check-instrument-changed',
  'check-instrument-added',
  'check-copies-added',
  'check-choice-new',
  'check-choices-gone',
  'check-files-missing',
  'cue-damaged',
  'cue-looks-partial',
  'part-unmapped',
  'route-articulation',
  'track-after-end',
  'settled-silent',
]);

/**
 * True for a finding that stands against a proof. Whatever stops a cue from being read is an error,
 * and does too.
 */
export const standsAgainstProof = ({ code, severity }: Finding): boolean =>
  severity === 'error' || open.has(code);
