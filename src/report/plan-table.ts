import type { Plan, PlanMachine } from '../keep/plan.ts';
import { printable } from '../terms/printable.ts';
import { aboutFigures } from './about-figures.ts';
import { choices } from './choices.ts';
import { doubtsTable } from './doubts-table.ts';
import { formatBytes, formatCount, plural } from './format.ts';
import { headroomCurveTable } from './headroom-curve-table.ts';
import { instrumentSections } from './instrument-sections.ts';
import { instrumentTable } from './instrument-table.ts';
import type { Look } from './look.ts';
import { machineTable } from './machine-table.ts';
import { paragraph } from './paragraph.ts';
import { planVerdict } from './plan-verdict.ts';
import { rareTable } from './rare-table.ts';
import { versionsSection } from './versions-section.ts';

const inAll = ({ total }: Plan, look: Look): readonly string[] => {
  const { zones, zonesKept, samples, samplesKept, bytes } = total;
  return paragraph(
    [
      { text: 'In all:', paint: look.colors.bold },
      `${formatCount(zonesKept)} of ${plural(zones, 'zone')},`,
      `${formatCount(samplesKept)} of ${plural(samples, 'sample')},`,
      `${formatBytes(bytes.kept)} of ${formatBytes(bytes.full)} stay.`,
    ],
    look.width,
  );
};

/** Without a template there is one machine, and nothing is known of its memory. */
const machineLine = ({ id, bytes }: PlanMachine, look: Look): readonly string[] =>
  paragraph(
    [
      `Machine ${printable(id)}: ${formatBytes(bytes.kept)} instead of ${formatBytes(bytes.full)};`,
      'no memory budget given.',
    ],
    look.width,
  );

/** One instrument that plays all: its table is the plan. */
const oneInstrument = (plan: Plan, look: Look): readonly (readonly string[])[] => [
  ...plan.instruments.map((instrument) => instrumentTable(instrument, plan.settings.pins, look)),
  [...inAll(plan, look), ...plan.machines.flatMap((machine) => machineLine(machine, look))],
];

/** A template: machine by machine, then what is to be chosen within the instruments. */
const severalInstruments = (plan: Plan, look: Look): readonly (readonly string[])[] => [
  ...plan.machines.map((machine) => machineTable(machine, plan, look)),
  inAll(plan, look),
  ...instrumentSections(plan, look),
];

/** A plan as a person acts on it: the answer, the instruments, the machines, the doubts, the basis. */
export const planTable = (plan: Plan, look: Look): string => {
  const isTemplate = plan.template !== null || plan.instruments.length > 1;
  const chosen = choices(plan, look);
  const sections: readonly (readonly string[])[] = [
    planVerdict(plan, isTemplate, look),
    ...(isTemplate ? severalInstruments(plan, look) : oneInstrument(plan, look)),
    doubtsTable(plan, isTemplate, look),
    ...[versionsSection(plan, look), headroomCurveTable(plan, look), rareTable(plan, look)].filter(
      (lines) => lines.length > 0,
    ),
    ...(chosen.length === 0 ? [] : [chosen]),
    aboutFigures(plan, isTemplate, look),
  ];
  return `${sections.map((lines) => lines.join('\n')).join('\n\n')}\n`;
};
