import type { PlanMachine } from '../keep/plan.ts';
import { formatBytes } from './format.ts';
import type { Look } from './look.ts';
import { nameInText } from './name-list.ts';
import type { Paragraph } from './paragraph.ts';

/** Whether what stays fits a machine, on the highest figure, and by how much it does or does not. */
export const machineFit = ({ id, budget, bytes, fits }: PlanMachine, look: Look): Paragraph => {
  const { colors } = look;
  const machine = `Machine ${nameInText(id, look)}`;
  const { kept, low, high } = bytes;
  const least = formatBytes(low);
  const most = formatBytes(high);
  const need = least === most ? `${most} needed` : `${least} to ${most} needed`;
  if (budget === null || fits === null) return [`${machine}: ${need}, no memory budget given.`];
  const there = `${need}, ${formatBytes(budget)} there,`;
  if (fits) {
    const spare = formatBytes(budget - high);
    return [{ text: `${machine} fits:`, paint: colors.green }, `${there} ${spare} to spare.`];
  }
  const missing = formatBytes(high - budget);
  return kept > budget
    ? [{ text: `! ${machine} DOES NOT FIT:`, paint: colors.red }, `${there} ${missing} too much.`]
    : [
        { text: `! ${machine} MAY NOT FIT:`, paint: colors.red },
        `${there} ${formatBytes(kept)} likely; at the most ${missing} too much.`,
      ];
};
