import type { Finding } from '../terms/finding.ts';
import type { OverviewInput } from './overview-input.ts';

/** What was found by the plan and by all that was made of it, each once. */
export const overviewFindings = ({
  plan,
  check,
  memory,
  worklist,
  keep,
}: Pick<OverviewInput, 'plan' | 'check' | 'memory' | 'worklist' | 'keep'>): readonly Finding[] => {
  const seen = new Set<string>();
  const all = [
    ...plan.findings,
    ...check.findings,
    // The rest of what memory tells are findings of the plan.
    ...memory.findings.filter(({ code }) => code.startsWith('memory-')),
    ...worklist.findings.map((one) =>
      one.file === worklist.keep.path ? { ...one, file: keep.path } : one,
    ),
  ].map(bare);
  const tooSmall = new Set(
    all.flatMap((one) =>
      one.code === 'memory-over-budget' || one.code === 'memory-cue-alone'
        ? [one.args.machine]
        : [],
    ),
  );
  return all.filter((one) => {
    // The memory of the reel says the same of the machine.
    if (one.code === 'machine-over-budget' && tooSmall.has(one.args.machine)) return false;
    const key = JSON.stringify(one);
    return !seen.has(key) && seen.add(key);
  });
};

/** Without the words that a keep file holds beside it. */
const bare = ({ code, severity, file, at, args }: Finding): Finding =>
  ({ code, severity, file, at, args }) as Finding;
