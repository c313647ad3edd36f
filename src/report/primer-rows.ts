import type { Primer, PrimerInstrument } from '../primer/primer.ts';
import { fixed, name, shortened, type Cell } from './cell.ts';
import { widest } from './column-widths.ts';
import { bytesIn, formatCount, tableUnit } from './format.ts';
import type { Look } from './look.ts';
import { layOutWithSpare, type SpareColumn } from './spare-columns.ts';
import { notShown } from './table.ts';

interface Row extends PrimerInstrument {
  readonly machine: string;
  /** Of those that are not primed, those that no cue can play: nothing lacks them. */
  readonly tied: number;
}

/** What a primer loads of each instrument, in template order, and what its player should show then. */
export const primerRows = ({ machines, notPrimed }: Primer, look: Look): readonly string[] => {
  const rows = machines.flatMap(({ id, instruments }) =>
    instruments.map((one): Row => {
      const tied = notPrimed.filter(
        ({ instrument, because }) => instrument === one.id && because === 'tied',
      );
      return { ...one, machine: id, tied: tied.length };
    }),
  );
  const unit = tableUnit(Math.max(0, ...rows.map(({ bytes }) => bytes)));
  const total = (of: (row: Row) => number): string =>
    formatCount(rows.reduce((sum, row) => sum + of(row), 0));
  const count = (
    title: readonly string[],
    of: (row: Row) => number,
    leaveOut: number,
    paint?: Cell['paint'],
  ): readonly [SpareColumn, (row: Row) => Cell, Cell] => [
    { title, align: 'right', leaveOut },
    (row) => fixed(formatCount(of(row)), of(row) > 0 ? paint : undefined),
    fixed(total(of)),
  ];
  const columns: readonly (readonly [SpareColumn, (row: Row) => Cell, Cell])[] = [
    [
      { title: ['Instrument'], align: 'left', min: 10 },
      ({ id }) => name(id, look),
      shortened(['In all'], look.colors.bold),
    ],
    ...(machines.length > 1
      ? [
          [
            { title: ['Machine'], align: 'left', min: 7, leaveOut: 4 },
            ({ machine }: Row) => name(machine, look),
            fixed(''),
          ] as const,
        ]
      : []),
    count(['Zones', 'kept'], ({ zones }) => zones, 1),
    count(['By', 'notes'], ({ synthesised }) => synthesised, 3),
    count(['By', 'excerpts'], ({ excerpted }) => excerpted, 2),
    count(['Not', 'loaded'], (row) => row.notPrimed - row.tied, 0, look.colors.yellow),
    ...(rows.some(({ tied }) => tied > 0) ? [count(['Not', 'needed'], ({ tied }) => tied, 4)] : []),
    [
      { title: ['Size', 'then', unit.name], align: 'right', leaveOut: 5 },
      ({ bytes }) => fixed(bytesIn(bytes, unit)),
      fixed(''),
    ],
  ];
  const { text, leftOut } = layOutWithSpare(
    columns.map(([column]) => column),
    [
      ...rows.map((row) => columns.map(([, cell]) => cell(row))),
      'rule',
      columns.map(([, , all]) => all),
    ],
    look,
    widest(rows.map(({ id }) => name(id, look).whole)),
  );
  return [text, ...notShown(leftOut, look)];
};
