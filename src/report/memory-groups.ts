import type { LoadingGroup, LoadingGroups, ReelMemory } from '../keep/reel/reel-memory.ts';
import { fixed, shortened, type Cell } from './cell.ts';
import { bullets } from './bullets.ts';
import { bytesIn, formatBytes, formatCount, plural, tableUnit } from './format.ts';
import type { Look } from './look.ts';
import { fitCell, machineTitle } from './memory-overview.ts';
import { usedMachines } from './memory-verdict.ts';
import { loadTime, loadTimeCell, noRate } from './memory-words.ts';
import { nameInText } from './name-list.ts';
import { paragraph, type Paragraph } from './paragraph.ts';
import { layOut, notShown, type Column } from './table.ts';

/** Which cues are loaded together, and what each change takes; nothing where it was not worked out. */
export const memoryGroups = (memory: ReelMemory, look: Look): readonly string[] => {
  const { groups, cues, settings } = memory;
  if (groups === null || groups.groups.length === 0) return [];
  // One group that was not asked for says nothing that the verdict does not.
  if (groups.groups.length === 1 && !settings.inGroups) return [];
  const machines = usedMachines(memory);
  const unit = tableUnit(memory.total.full);
  const bytes = (count: number): Cell => fixed(bytesIn(count, unit));
  const columns: readonly Column[] = [
    { title: ['Group'], align: 'right' },
    { title: ['Cues'], align: 'left', min: 10 },
    ...machines.map(({ id }, i): Column => ({
      title: [machineTitle(id, look), unit.name],
      align: 'right',
      leaveOut: 10 + i,
    })),
    ...(machines.length > 1
      ? [{ title: ['All', 'machines', unit.name], align: 'right' as const, leaveOut: 2 }]
      : []),
    { title: ['To load', unit.name], align: 'right' },
    { title: ['May go', unit.name], align: 'right', leaveOut: 1 },
    { title: ['Time'], align: 'right' },
  ];
  const { text, leftOut } = layOut(
    columns,
    groups.groups.map((group, i) => [
      fixed(formatCount(i + 1)),
      cuesOf(group, look),
      ...machines.map(({ id }) =>
        fitCell(
          group.machines.find((one) => one.id === id),
          unit,
          look,
        ),
      ),
      ...(machines.length > 1 ? [bytes(group.bytes)] : []),
      bytes(group.load),
      bytes(group.mayGo),
      loadTimeCell(group.seconds),
    ]),
    look,
  );
  const title = `Loading ${plural(cues.length, 'cue')} in ${plural(groups.groups.length, 'group')}`;
  return [
    look.colors.bold(title),
    '',
    text,
    ...notShown(leftOut, look),
    ...noRate(
      groups.groups.map(({ seconds }) => seconds),
      look,
    ),
    ...below(groups, look).flatMap((line) => paragraph(line, look.width)),
    ...changesBetween(groups, look),
  ];
};

const cuesOf = ({ cues }: LoadingGroup, look: Look): Cell => {
  const [first, last] = [cues[0] ?? '', cues.at(-1) ?? ''].map((cue) => nameInText(cue, look));
  if (cues.length < 2) return shortened([first ?? '']);
  const run = `${first ?? ''}${cues.length === 2 ? ',' : ' to'} ${last ?? ''}`;
  const count = plural(cues.length, 'cue');
  return shortened(cues.length === 2 ? [run, count] : [`${run} (${count})`, run, count]);
};

const below = (
  { groups, load, seconds, alone }: LoadingGroups,
  look: Look,
): readonly Paragraph[] => {
  const [first] = groups;
  if (first === undefined) return [];
  const time = (amount: number | null): string => (amount === null ? '' : `, ${loadTime(amount)}`);
  const changes =
    groups.length === 1
      ? []
      : [
          `${groups.length === 2 ? 'The change loads' : `The ${plural(groups.length - 1, 'change')} load`} ${formatBytes(load)}${time(seconds)}.`,
        ];
  return [
    [
      `The first group is loaded before the work: ${formatBytes(first.load)}${time(first.seconds)}.`,
      ...changes,
    ],
    ...alone.map(({ cue, machine, missing }): Paragraph => [
      {
        text: `! ${nameInText(cue, look)} does not fit even alone:`,
        paint: look.colors.red,
      },
      `${formatBytes(missing)} missing on machine ${nameInText(machine, look)}.`,
    ]),
  ];
};

/** More instruments than these of one change are counted, unless details are asked for. */
const mostChanged = 8;

/** What to do at each change, machine by machine. */
const changesBetween = ({ groups }: LoadingGroups, look: Look): readonly string[] =>
  groups.slice(1).flatMap((group, i) => {
    const steps = group.machines.flatMap(({ id }): readonly Paragraph[] => {
      const here = group.instruments.filter(({ machine }) => machine === id);
      const goes = listed(here, 'mayGo', look);
      const comes = listed(here, 'load', look);
      if (goes === '' && comes === '') return [];
      const does = [goes === '' ? '' : `unload ${goes}`, comes === '' ? '' : `load ${comes}`];
      return [
        [`machine ${nameInText(id, look)}:`, does.filter((one) => one !== '').join('; then ')],
      ];
    });
    return steps.length === 0
      ? []
      : ['', ...bullets(`Change to group ${String(i + 2)}`, steps, look)];
  });

const listed = (
  instruments: LoadingGroup['instruments'],
  what: 'load' | 'mayGo',
  look: Look,
): string => {
  const some = instruments.filter((one) => one[what] > 0).toSorted((a, b) => b[what] - a[what]);
  const shown = some.slice(0, look.details === true ? Infinity : mostChanged);
  const more = some.length - shown.length;
  return [
    ...shown.map((one) => `${nameInText(one.id, look)} ${formatBytes(one[what])}`),
    ...(more > 0 ? [`${formatCount(more)} more`] : []),
  ].join(', ');
};
