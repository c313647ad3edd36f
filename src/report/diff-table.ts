import type { Diff, DiffInstrument, DiffMachine } from '../keep/compare/diff.ts';
import { diffInstrumentSection } from './diff-instrument.ts';
import { diffMachineTable } from './diff-machine.ts';
import { work } from './diff-words.ts';
import { formatBytes, formatCount, plural } from './format.ts';
import type { Look } from './look.ts';
import { machineFit } from './machine-fit.ts';
import { nameInText, nameList } from './name-list.ts';
import { paragraph, type Paragraph } from './paragraph.ts';

/** More sections than this nobody reads through: those with most to do. */
const mostSections = 8;

/** Something is to be loaded or unloaded of it, be it a copy of the same zones. */
export const isChanged = ({ copies, copiesLoaded, copiesUnloaded }: DiffInstrument): boolean =>
  copies.length > 0 || copiesLoaded.length > 0 || copiesUnloaded.length > 0;

/** What to load and to unload between two keep files: the answer, the machines, the instruments. */
export const diffTable = (diff: Diff, look: Look): string => {
  const changed = diff.instruments.filter(isChanged);
  if (changed.length === 0) return `${paragraph(noWork(diff, look), look.width).join('\n')}\n`;
  const byWork = changed.toSorted((a, b) => zonesOf(b) - zonesOf(a));
  const shown = look.details === true ? changed : byWork.slice(0, mostSections);
  const sections: readonly (readonly string[])[] = [
    verdict(diff, look).flatMap((each) => paragraph(each, look.width)),
    ...diff.machines.map((machine) => diffMachineTable(machine, changed, look)),
    ...changed.filter((one) => shown.includes(one)).map((one) => diffInstrumentSection(one, look)),
    rest(diff, changed.length - shown.length, look),
  ];
  return `${sections
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
};

const zonesOf = ({ load, unload }: DiffInstrument): number => load.zones + unload.zones;

const noWork = ({ from, to, total }: Diff, look: Look): Paragraph => {
  const { zones, bytes } = total.unchanged;
  return [
    { text: 'Nothing to load or unload:', paint: look.colors.bold },
    `${nameInText(from.path, look)} and ${nameInText(to.path, look)} keep the same ${plural(zones, 'zone')}${bytes === null ? '' : ` (${formatBytes(bytes)})`}.`,
  ];
};

const verdict = (diff: Diff, look: Look): readonly Paragraph[] => {
  const { from, to, total, machines } = diff;
  const files = `${nameInText(from.path, look)} to ${nameInText(to.path, look)}`;
  return [
    [
      { text: work(total) ?? 'Load or close copies', paint: look.colors.bold },
      `to go from ${files}.`,
    ],
    ...(total.load.bytes === null ? [net(machines)] : []),
    ...machines.filter(({ kept }) => kept.to > 0).map((machine) => fit(machine, look)),
  ];
};

const sum = <T>(items: readonly T[], value: (item: T) => number): number =>
  items.reduce((total, item) => total + value(item), 0);

/** What the files themselves say, where it takes the instruments to say more. */
const net = (machines: readonly DiffMachine[]): Paragraph => {
  const before = sum(machines, ({ kept }) => kept.from);
  const after = sum(machines, ({ kept }) => kept.to);
  const difference = formatBytes(Math.abs(after - before));
  return [
    `How many bytes that is takes the instruments to tell; ${formatBytes(before)} were kept and ${formatBytes(after)} will be,`,
    after === before ? 'the same.' : `${difference} ${after > before ? 'more' : 'less'}.`,
  ];
};

const fit = ({ id, budget, kept, low, high, fits }: DiffMachine, look: Look): Paragraph =>
  machineFit({ id, budget, bytes: { full: kept.to, kept: kept.to, low, high }, fits }, look);

/** What has nothing to do, and what was not shown. */
const rest = ({ instruments }: Diff, hidden: number, look: Look): readonly string[] => {
  const same = instruments.filter((one) => !isChanged(one) && one.unchanged.zones > 0);
  const names = same.map(({ id }) => id);
  const lines: readonly Paragraph[] = [
    ...(hidden === 0
      ? []
      : [
          [
            `${formatCount(hidden)} more ${hidden === 1 ? 'instrument changes' : 'instruments change'} less than these:`,
            '--verbose shows all of them, and --format csv has every zone.',
          ],
        ]),
    ...(names.length === 0
      ? []
      : [[{ text: 'As before:', paint: look.colors.bold }, `${nameList(names, look)}.`]]),
  ];
  return lines.flatMap((line) => paragraph(line, look.width));
};
