import type { Finding, FindingArgs, FindingCode } from '../terms/finding.ts';
import { bankWording } from './messages/bank.ts';
import { checkWording } from './messages/check.ts';
import { cueWording } from './messages/cues.ts';
import { diffWording } from './messages/diff.ts';
import { keepFileWording } from './messages/keep-file.ts';
import { midiWording } from './messages/midi.ts';
import { playerWording } from './messages/player.ts';
import { outlineWording } from './messages/outline.ts';
import { planWording } from './messages/plan.ts';
import { routeWording } from './messages/route.ts';
import { sampleWording } from './messages/samples.ts';
import { sfzWording } from './messages/sfz.ts';
import { tableWording } from './messages/table.ts';
import { templateWording } from './messages/template.ts';
import { memoryWording } from './messages/memory.ts';
import { primerWording } from './messages/primer.ts';
import { reportWording } from './messages/report.ts';
import { trimWording } from './messages/trim.ts';
import { usageFileWording } from './messages/usage-files.ts';
import { whyWording } from './messages/why.ts';
import { worklistWording } from './messages/worklist.ts';
import type { Wording, Words } from './messages/words.ts';
import { yamlWording } from './messages/yaml.ts';

const wording: Wording<FindingCode> = {
  ...midiWording,
  ...cueWording,
  ...bankWording,
  ...yamlWording,
  ...templateWording,
  ...tableWording,
  ...outlineWording,
  ...sfzWording,
  ...sampleWording,
  ...usageFileWording,
  ...routeWording,
  ...playerWording,
  ...planWording,
  ...checkWording,
  ...keepFileWording,
  ...whyWording,
  ...diffWording,
  ...memoryWording,
  ...trimWording,
  ...worklistWording,
  ...primerWording,
  ...reportWording,
};

/** Every finding there is, in the order of the wording. */
export const findingCodes = Object.keys(wording) as readonly FindingCode[];

/**
 * A finding in plain words: what it is and what to do. Where it is stands in the finding itself.
 * Names from files are made printable.
 */
export const messageOf = (finding: Finding): Words => {
  const say = wording[finding.code] as (args: FindingArgs[FindingCode]) => Words;
  return say(finding.args);
};

/** A finding with its words, as JSON output carries it. */
export type WordedFinding = Finding & Words;

/** A result whose findings carry their words: for people who read JSON. */
export const withMessages = <Result extends { readonly findings: readonly Finding[] }>(
  result: Result,
): Omit<Result, 'findings'> & { readonly findings: readonly WordedFinding[] } => ({
  ...result,
  findings: result.findings.map((found) => ({ ...found, ...messageOf(found) })),
});
