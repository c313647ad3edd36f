import type { OverviewMachine } from '../../overview/overview-machines.ts';
import type { Overview } from '../../overview/overview.ts';
import { bullets } from '../bullets.ts';
import { fixed, name, shortened, type Cell } from '../cell.ts';
import { widest } from '../column-widths.ts';
import { bytesIn, tableUnit } from '../format.ts';
import type { Look } from '../look.ts';
import { roomWays } from '../memory-room.ts';
import { betweenCell, hasRange, largestOf } from '../memory-words.ts';
import { nameInText } from '../name-list.ts';
import { paragraph } from '../paragraph.ts';
import { fitsWords } from '../said/fits.ts';
import { titledTable } from './titled-table.ts';

/** Ways to make room that are told; the page has more. */
const mostWays = 3;

const fitsCell = (machine: OverviewMachine, { colors }: Look): Cell => {
  const words = fitsWords(machine);
  const [short = words] = words.split(/[,;]/);
  return machine.fits === false
    ? shortened([`! ${words}`, `! ${short}`], colors.red)
    : shortened([words, words.split(';')[0] ?? words, short]);
};

/** What each machine holds now and after, and whether that fits. */
export const machineLines = ({ machines }: Overview, look: Look): readonly string[] => {
  if (machines.length === 0) return [];
  const unit = tableUnit(
    largestOf(machines.map(({ bytes, budget }) => Math.max(bytes.full, budget ?? 0))),
  );
  const bytes = (count: number): Cell => fixed(bytesIn(count, unit));
  const ranges = machines.map(({ bytes: { kept, low, high } }) => ({ bytes: kept, low, high }));
  // Where every figure is certain there is nothing between.
  const between = ranges.some(hasRange) ? ranges.map((range) => betweenCell(range, unit)) : null;
  const fits = machines.map((machine) => fitsCell(machine, look));
  const narrowest = (cells: readonly Cell[]): number => widest(cells.map(({ fit }) => fit(0)));
  return titledTable(
    'Machines',
    [
      { title: ['Machine'], align: 'left', min: 8 },
      { title: ['Now', unit.name], align: 'right', leaveOut: 2 },
      { title: ['After', unit.name], align: 'right' },
      ...(between === null
        ? []
        : [
            {
              title: ['Between', unit.name],
              align: 'right' as const,
              min: narrowest(between),
              leaveOut: 3,
            },
          ]),
      { title: ['Budget', unit.name], align: 'right' },
      { title: ['Fits'], align: 'left', min: narrowest(fits) },
    ],
    machines.map((machine, i) => [
      name(machine.id, look),
      bytes(machine.bytes.full),
      bytes(machine.bytes.kept),
      ...(between === null ? [] : [between[i] ?? fixed('')]),
      machine.budget === null ? fixed('none') : bytes(machine.budget),
      fits[i] ?? fixed(''),
    ]),
    look,
  );
};

/** What would free memory on the machines that are too small, what is enough and the most first. */
export const roomLines = ({ machines }: Overview, look: Look): readonly (readonly string[])[] =>
  machines.filter(({ fits }) => fits === false).map((machine) => roomOn(machine, look));

const roomOn = ({ id, ways }: OverviewMachine, look: Look): readonly string[] => {
  const best = ways
    .toSorted((a, b) => Number(b.fits) - Number(a.fits) || b.bytes - a.bytes)
    .slice(0, mostWays);
  const heading = `What would make room on machine ${nameInText(id, look)}`;
  if (best.length === 0) {
    const nothing = paragraph(['Nothing was found that would free memory there.'], look.width);
    return [look.colors.bold(heading), ...nothing];
  }
  const isEnough = best.some(({ fits }) => fits);
  return [
    ...bullets(
      heading,
      roomWays(best, id, look).map((words) => [words]),
      look,
    ),
    ...paragraph(
      [
        isEnough
          ? 'Each is counted by itself, all else as it is.'
          : 'None of these is enough alone: take several.',
      ],
      look.width,
    ),
  ];
};
