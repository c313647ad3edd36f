import { finding, type Finding } from '../../terms/finding.ts';
import { decide, settledAsPlain, type Subject } from '../decision.ts';
import { keptMask } from '../keep-set.ts';
import type { Plan } from '../plan.ts';

/** Where the cues need something else than a keep file keeps: it may have been edited. */
export const keepDifferences = (
  planned: Plan,
  subjects: readonly Subject[],
  file: string,
): readonly Finding[] =>
  subjects.flatMap((subject): readonly Finding[] => {
    const { instrument, settle } = subject;
    const kept = new Set(
      planned.instruments.find(({ id }) => id === instrument.id)?.kept.map(({ zone }) => zone),
    );
    const mask = keptMask(decide(subject, settledAsPlain(settle)).whole);
    const needed = instrument.zones.flatMap(({ id }, zone) => (mask[zone] === 1 ? [id] : []));
    const missing = needed.filter((zone) => !kept.has(zone)).length;
    const idle = kept.size - (needed.length - missing);
    if (missing === 0 && idle === 0) return [];
    const args = { instrument: instrument.id, missing, idle };
    return [finding('warning', 'memory-keep-differs', file, args)];
  });
