import type { Check, CheckMachine } from '../keep/check/check.ts';
import { fixed, name, type Cell } from './cell.ts';
import { bytesIn, tableUnit } from './format.ts';
import type { Look } from './look.ts';
import { layOut, notShown } from './table.ts';

const fit = ({ bytes, budget, fits }: CheckMachine, { colors }: Look): Cell => {
  if (fits === null || budget === null) return fixed('no budget given');
  if (fits) return fixed('fits', colors.green);
  return bytes.reloaded > budget
    ? fixed('DOES NOT FIT', colors.red)
    : fixed('MAY NOT FIT', colors.red);
};

/** What the machines hold once all that is missing is loaded again. */
export const checkMachines = ({ machines, misses }: Check, look: Look): readonly string[] => {
  if (misses.length === 0 || machines.length === 0) return [];
  // Not by the budgets: what is loaded is finer than what there is room for.
  const unit = tableUnit(Math.max(...machines.map(({ bytes }) => bytes.high)));
  const amount = (count: number): Cell => fixed(bytesIn(count, unit));
  const hasRange = machines.some(({ bytes }) => bytes.low !== bytes.high);
  const between = ({ low, high }: CheckMachine['bytes']): Cell =>
    fixed(low === high ? '' : `${bytesIn(low, unit)}-${bytesIn(high, unit)}`);
  const { text, leftOut } = layOut(
    [
      { title: ['Machine'], align: 'left', min: 8 },
      { title: ['Kept', unit.name], align: 'right', leaveOut: 1 },
      { title: ['With the', 'missing', unit.name], align: 'right' },
      ...(hasRange
        ? [{ title: ['Between', unit.name], align: 'right', leaveOut: 2 } as const]
        : []),
      { title: ['Memory', 'there', unit.name], align: 'right', leaveOut: 0 },
      { title: ['Then it'], align: 'left' },
    ],
    machines.map((machine) => [
      name(machine.id, look),
      amount(machine.bytes.kept),
      amount(machine.bytes.reloaded),
      ...(hasRange ? [between(machine.bytes)] : []),
      machine.budget === null ? fixed('-') : amount(machine.budget),
      fit(machine, look),
    ]),
    look,
  );
  return [text, ...notShown(leftOut, look)];
};
