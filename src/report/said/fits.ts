import type { OverviewMachine } from '../../overview/overview-machines.ts';
import type { OverviewList } from '../../overview/overview-steps.ts';
import { formatBytes } from '../format.ts';
import { said, type Said } from './said.ts';

/** Whether it fits, in words; judged on the high figure. */
export const fitsWords = (machine: OverviewMachine): string => {
  const { budget, bytes, fits } = machine;
  if (budget === null || fits === null) return 'no budget given';
  if (fits) return `yes, ${formatBytes(budget - bytes.high)} to spare; ${whenItFits(machine)}`;
  const missing = formatBytes(bytes.high - budget);
  return bytes.kept > budget ? `no, ${missing} too much` : `perhaps not, up to ${missing} too much`;
};

const whenItFits = ({ fitsNow, fitsAfter }: OverviewMachine): string => {
  if (fitsNow === true) return 'fits as it is';
  return fitsAfter === null
    ? 'not by the steps that may be done'
    : `fits after step ${String(fitsAfter)}`;
};

/** What of the steps is needed for a machine to fit; null: it has no budget, or never fits. */
export const fitsSaid = (
  { id, fits, fitsNow, fitsAfter }: OverviewMachine,
  { actions }: Pick<OverviewList, 'actions'>,
): Said | null => {
  const machine = { name: id };
  if (fits !== true) return null;
  if (fitsNow === true) return said`Machine ${machine} fits as it is: no step is needed for it.`;
  if (fitsAfter === null)
    return said`Machine ${machine} does not fit by the steps that may be done.`;
  const isWithMissed = actions.some(({ number, missed }) => missed !== null && number < fitsAfter);
  const only = isWithMissed ? ', without those above it that are needed' : '';
  return said`Machine ${machine} fits after step ${String(fitsAfter)}${only}.`;
};
