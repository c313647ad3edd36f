import { checkTable } from '../../../src/report/check-table.ts';
import { plainColors } from '../../../src/report/colors.ts';
import { diffTable } from '../../../src/report/diff-table.ts';
import { inspectTable } from '../../../src/report/inspect-table.ts';
import type { Look } from '../../../src/report/look.ts';
import { memoryTable } from '../../../src/report/memory-table.ts';
import { planTable } from '../../../src/report/plan-table.ts';
import { primerTable } from '../../../src/report/primer-table.ts';
import { primerVerificationTable } from '../../../src/report/primer-verification-table.ts';
import { markdownLook } from '../../../src/report/markdown/markdown-look.ts';
import { markdownTitle } from '../../../src/report/markdown/titles.ts';
import { toMarkdown } from '../../../src/report/markdown/to-markdown.ts';
import { reportText } from '../../../src/report/report-text.ts';
import { trimTable } from '../../../src/report/trim-table.ts';
import { usageTable } from '../../../src/report/usage-table.ts';
import { whyTable } from '../../../src/report/why-table.ts';
import { halfDoneCheck, missingCheck, provedCheck } from '../fixtures/check.ts';
import { diff, sameDiff } from '../fixtures/diff.ts';
import { bankInspection, tableInspection } from '../fixtures/inspection.ts';
import {
  comparedMemory,
  cueMemory,
  groupedMemory,
  placedMemory,
  reelMemory,
  singleMemory,
} from '../fixtures/memory.ts';
import { plan } from '../fixtures/plan.ts';
import { lackingPrimer, primer, tiedPrimer, verifiedPrimer } from '../fixtures/primer.ts';
import { overview, wholeOverview } from '../fixtures/overview.ts';
import { templatePlan } from '../fixtures/template-plan.ts';
import { trim, unmetTrim } from '../fixtures/trim.ts';
import { usage } from '../fixtures/usage.ts';
import { wholeWhy, why } from '../fixtures/why.ts';

/** A result that any writer may get. */
interface Result {
  readonly schema: string;
}

/** A report of a fixture, written in any look; its names can be changed beforehand. */
export interface Report {
  readonly name: string;
  readonly schema: string;
  readonly text: (look: Look, change?: <T>(value: T) => T) => string;
}

const report = <T extends Result>(
  name: string,
  result: T,
  write: (result: T, look: Look, file: string) => string,
): Report => ({
  name,
  schema: result.schema,
  text: (look, change = (value) => value) =>
    write(change(result), look, change({ file: 'keep.json' }).file),
});

/** One report and more of each command whose result is a table. */
export const reports: readonly Report[] = [
  report('usage', usage, usageTable),
  report('plan', plan, planTable),
  report('plan-template', templatePlan, planTable),
  report('check-missing', missingCheck, checkTable),
  report('check-proved', provedCheck, checkTable),
  report('check-half-done', halfDoneCheck, checkTable),
  ...(
    [
      ['memory', reelMemory],
      ['memory-groups', groupedMemory],
      ['memory-cue', cueMemory],
      ['memory-placed', placedMemory],
      ['memory-compared', comparedMemory],
      ['memory-single', singleMemory],
    ] as const
  ).map(([name, memory]) =>
    report(name, memory, (shown, look) => memoryTable(shown, { ...look, by: 'machine' })),
  ),
  report('memory-instruments', reelMemory, (shown, look) =>
    memoryTable(shown, { ...look, by: 'instrument' }),
  ),
  report('report', overview, reportText),
  report('report-whole', wholeOverview, reportText),
  report('diff', diff, diffTable),
  report('diff-same', sameDiff, diffTable),
  report('trim', trim, (shown, look, keep) => trimTable(shown, { out: 'small/', keep }, look)),
  report('trim-unmet', unmetTrim, (shown, look, keep) =>
    trimTable(shown, { out: 'small/', keep }, look),
  ),
  report('why', why, whyTable),
  report('why-whole', wholeWhy, whyTable),
  report('inspect-bank', bankInspection, (shown, look) =>
    inspectTable(shown, { ...look, details: true }),
  ),
  report('inspect-table', tableInspection, inspectTable),
  report('primer', primer, (shown, look, keep) =>
    primerTable(shown, { out: 'primer.mid', keep }, look),
  ),
  report('primer-tied', tiedPrimer, (shown, look, keep) =>
    primerTable(shown, { out: 'primer.mid', keep }, look),
  ),
  report('primer-verified', verifiedPrimer, primerVerificationTable),
  report('primer-lacking', lackingPrimer, primerVerificationTable),
];

/** The text of a pipe, where nothing is cut. */
export const piped: Look = { colors: plainColors, ascii: false, width: null };

/** The same as Markdown. */
export const markdownOf = ({ schema, text }: Report, change?: <T>(value: T) => T): string =>
  toMarkdown(text(markdownLook(piped), change), markdownTitle(schema));
