import type { OverviewInstrument } from '../../overview/overview-instrument.ts';
import { formatCount, plural } from '../format.ts';

/**
 * Notes sent to an instrument, and those of them that none of its articulations counts.
 *
 * @example '61 notes (4 only choose what follows)'
 */
export const notesWords = ({
  notes,
  otherNotes: { choosing, doubtful, nothing },
}: Pick<OverviewInstrument, 'notes' | 'otherNotes'>): string => {
  const kinds = [
    [choosing, 'only chooses', 'only choose', 'what follows'],
    [doubtful, 'starts', 'start', 'something only in doubt'],
    [nothing, 'starts', 'start', 'nothing'],
  ] as const;
  const others = kinds.flatMap(([count, one, many, what]) =>
    count === 0 ? [] : [`${formatCount(count)} ${count === 1 ? one : many} ${what}`],
  );
  return `${plural(notes, 'note')}${others.length === 0 ? '' : ` (${others.join(', ')})`}`;
};
