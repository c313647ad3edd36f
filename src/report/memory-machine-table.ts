import type { CueMachine, CueMemory, ReelMachine, ReelMemory } from '../keep/reel/reel-memory.ts';
import { fixed, name, shortened, shownName, type Cell } from './cell.ts';
import { widest } from './column-widths.ts';
import { bytesIn, formatDuration, plural, tableUnit, type ByteUnit } from './format.ts';
import type { Look } from './look.ts';
import { barCell, narrowestBar } from './memory-bar.ts';
import { betweenCell, hasRange, largestOf } from './memory-words.ts';
import { nameInText } from './name-list.ts';
import { paragraph, type Part } from './paragraph.ts';
import { layOutWithSpare, type SpareColumn } from './spare-columns.ts';
import { notShown, type Row } from './table.ts';

/** A cue, and what it needs on the machine of the table. */
interface CueRow {
  readonly cue: CueMemory;
  readonly here: CueMachine;
}

/** A column with what it shows of a cue, of all cues, of the largest and of all instruments. */
interface ReelColumn {
  readonly column: SpareColumn;
  readonly cell: (row: CueRow) => Cell;
  readonly sums: readonly [all: Cell, most: Cell, full: Cell];
}

const blank = fixed('');

export const machineHeading = (id: string, { colors, ...look }: Look): Part => ({
  text: `Machine ${nameInText(id, { colors, ...look })}`,
  paint: (text) => colors.bold(colors.cyan(text)),
});

/** What each cue needs of a machine: a row for each in the order of loading, and what they come to. */
export const memoryMachineTable = (
  machine: ReelMachine,
  memory: ReelMemory,
  look: Look,
): readonly string[] => {
  const rows = memory.cues.flatMap((cue): readonly CueRow[] =>
    cue.machines.filter(({ id }) => id === machine.id).map((here) => ({ cue, here })),
  );
  const heading = machineHeading(machine.id, look);
  if (rows.length === 0 || machine.high === 0) {
    return paragraph([heading, 'has nothing to load for these cues.'], look.width);
  }
  const unit = tableUnit(machine.full);
  const columns = columnsOf(machine, rows, unit, look);
  const line = (which: 0 | 1 | 2): Row => columns.map(({ sums }) => sums[which]);
  const { text, leftOut } = layOutWithSpare(
    columns.map(({ column }) => column),
    [
      ...rows.map((row) => columns.map(({ cell }) => cell(row))),
      'rule',
      ...(rows.length === 1 ? [] : [line(0), line(1)]),
      line(2),
    ],
    look,
    widest(rows.map(({ cue }) => shownName(cue.id, look))),
  );
  return [
    ...paragraph([heading, `(${plural(rows.length, 'cue')})`], look.width),
    '',
    text,
    ...notShown(leftOut, look),
  ];
};

const columnsOf = (
  machine: ReelMachine,
  rows: readonly CueRow[],
  unit: ByteUnit,
  look: Look,
): readonly ReelColumn[] => {
  const { colors } = look;
  const { peak, budget } = machine;
  const bytes = (count: number, paint?: Cell['paint']): Cell => fixed(bytesIn(count, unit), paint);
  const mark = ({ bytes: likely, fits }: Pick<CueMachine, 'bytes' | 'fits'>): Cell =>
    fits !== false || budget === null
      ? blank
      : fixed(likely > budget ? '! over' : '! may be over', colors.red);
  const figures = [machine, ...rows.map(({ here }) => here)];
  const narrowest = widest(figures.map((one) => betweenCell(one, unit).fit(0)));
  const scale = budget ?? largestOf(rows.map(({ here }) => here.bytes));
  const bar = (likely: number, fits: boolean | null): Cell =>
    barCell(likely, scale, budget !== null, look, fits === false ? colors.red : colors.dim);
  const peakFits = rows.find(({ cue }) => cue.id === peak?.cue)?.here.fits ?? null;
  const columns: readonly (ReelColumn | null)[] = [
    {
      column: { title: ['Cue'], align: 'left', min: 11 },
      cell: ({ cue }) => name(cue.id, look),
      sums: [
        shortened(['All cues at once', 'All cues', 'All'], colors.bold),
        mostAtATime(peak?.cue ?? '', look),
        shortened(['All instruments', 'Instruments'], colors.bold),
      ],
    },
    {
      column: { title: ['Length'], align: 'right', leaveOut: 5 },
      cell: ({ cue }) => fixed(formatDuration(cue.seconds)),
      sums: [blank, blank, blank],
    },
    {
      column: { title: ['Needs', unit.name], align: 'right' },
      cell: ({ here }) => bytes(here.bytes),
      sums: [bytes(machine.bytes), bytes(peak?.bytes ?? 0), bytes(machine.full)],
    },
    figures.some(hasRange)
      ? {
          column: { title: ['Between', unit.name], align: 'right', min: narrowest, leaveOut: 4 },
          cell: ({ here }) => betweenCell(here, unit),
          sums: [
            betweenCell(machine, unit),
            peak === null ? blank : betweenCell(peak, unit),
            blank,
          ],
        }
      : null,
    {
      column: { title: ['To load', unit.name], align: 'right', leaveOut: 2 },
      cell: ({ here }) => bytes(here.load),
      sums: [blank, blank, blank],
    },
    {
      column: { title: ['May go', unit.name], align: 'right', leaveOut: 3 },
      cell: ({ here }) => bytes(here.mayGo),
      sums: [blank, blank, blank],
    },
    {
      column: {
        title: [budget === null ? 'Of the most' : 'Of the budget'],
        align: look.marked === true ? 'right' : 'left',
        min: narrowestBar,
        leaveOut: 9,
        spare: true,
      },
      cell: ({ here }) => bar(here.bytes, here.fits),
      sums: [
        budget === null ? blank : bar(machine.bytes, machine.fits),
        bar(peak?.bytes ?? 0, peakFits),
        blank,
      ],
    },
    figures.some(({ fits }) => fits === false)
      ? {
          column: { title: [''], align: 'left' },
          cell: ({ here }) => mark(here),
          sums: [mark(machine), mark({ bytes: peak?.bytes ?? 0, fits: peakFits }), blank],
        }
      : null,
  ];
  return columns.flatMap((column) => (column === null ? [] : [column]));
};

const mostAtATime = (cue: string, look: Look): Cell => {
  const shown = nameInText(cue, look);
  return shortened([`Most at a time (${shown})`, `Most (${shown})`, 'Most'], look.colors.bold);
};
