import type { Plan, PlanMachine } from '../keep/plan.ts';
import { keyName } from '../terms/key.ts';
import { printable } from '../terms/printable.ts';
import { doubtsTable } from './doubts-table.ts';
import { formatBytes, formatCount, plural } from './format.ts';
import { instrumentTable, nounsOf } from './instrument-table.ts';
import type { Look } from './look.ts';
import { paragraph, type Paragraph } from './paragraph.ts';
import { planVerdict } from './plan-verdict.ts';

const machineLine = (machine: PlanMachine, { colors }: Look): Paragraph => {
  const { budget, fits, bytes } = machine;
  const change = `Machine ${printable(machine.id)}: ${formatBytes(bytes.kept)} instead of ${formatBytes(bytes.full)};`;
  if (budget === null || fits === null) return [change, 'no memory budget given.'];
  return [
    change,
    fits
      ? { text: `fits its ${formatBytes(budget)}.`, paint: colors.green }
      : {
          text: `DOES NOT FIT: ${formatBytes(bytes.high)} needed, ${formatBytes(budget)} there.`,
          paint: colors.red,
        },
  ];
};

const totals = (plan: Plan, look: Look): readonly string[] => {
  const { zones, zonesKept, samples, samplesKept, bytes } = plan.total;
  const lines: Paragraph[] = [
    [
      { text: 'In all:', paint: look.colors.bold },
      `${formatCount(zonesKept)} of ${plural(zones, 'zone')},`,
      `${formatCount(samplesKept)} of ${plural(samples, 'sample')},`,
      `${formatBytes(bytes.kept)} of ${formatBytes(bytes.full)} stay.`,
    ],
    ...plan.machines.map((machine) => machineLine(machine, look)),
  ];
  return lines.flatMap((line) => paragraph(line, look.width));
};

/** What the figures rest on, and the caution before anything is unloaded. */
const aboutFigures = (plan: Plan, look: Look): readonly string[] => {
  const many = [...new Set(plan.instruments.map((instrument) => nounsOf(instrument).many))];
  const notes: readonly string[] = [
    'Memory is computed from the sample headers: length x channels x bytes per sample point. A player adds some of its own, so its display may differ.',
    ...(many.length === 0
      ? []
      : [
          `A sample that several ${many.join(' or ')} share counts in each row, and once in the totals.`,
        ]),
    `Keys: middle C is ${keyName(60, look.middleC)} (60).`,
    'Settle a doubt only when you know the answer: what it kept is dropped then.',
    'Keep the full instruments somewhere safe. Make the plan again when a cue changes, and listen before you delete anything.',
  ];
  const room = look.width === null ? null : Math.max(look.width - 2, 20);
  return [
    look.colors.bold('About these figures'),
    ...notes.flatMap((note) =>
      paragraph([note], room).map((line, i) => `${i === 0 ? '-' : ' '} ${line}`),
    ),
  ];
};

/** A plan as a person acts on it: the answer, the instruments, the machines, the doubts, the basis. */
export const planTable = (plan: Plan, look: Look): string => {
  const sections: readonly (readonly string[])[] = [
    planVerdict(plan, look),
    ...plan.instruments.map((instrument) => instrumentTable(instrument, look)),
    totals(plan, look),
    doubtsTable(plan, look),
    aboutFigures(plan, look),
  ];
  return `${sections.map((lines) => lines.join('\n')).join('\n\n')}\n`;
};
