import type {
  CueInstrument,
  ReelInstrument,
  ReelMachine,
  ReelMemory,
} from '../keep/reel/reel-memory.ts';
import { byCodePoint } from '../terms/code-point-order.ts';
import { fixed, name, shortened, shownName, type Cell } from './cell.ts';
import { gap, widest, type Column } from './column-widths.ts';
import { basisSign } from './figure-basis.ts';
import { bytesIn, formatBytes, formatCount, plural, tableUnit, type ByteUnit } from './format.ts';
import { dots, type Look } from './look.ts';
import { machineHeading } from './memory-machine-table.ts';
import { betweenCell, hasRange } from './memory-words.ts';
import { nameInText } from './name-list.ts';
import { paragraph } from './paragraph.ts';
import { layOut, notShown } from './table.ts';
import { cutMiddle } from './text-width.ts';

/** Names of instruments and cues get no more room than this where there are columns to place. */
const widestName = 20;
const widestCue = 10;

/** A column of figures: what it shows of each instrument, and of the whole machine. */
interface FigureColumn {
  readonly column: Column;
  readonly cells: readonly Cell[];
  readonly all: Cell;
}

const byMemory = (a: ReelInstrument, b: ReelInstrument): number =>
  b.bytes - a.bytes || b.full - a.full || byCodePoint(a.id, b.id);

/** What each instrument of a machine needs in each cue; cues that have no room follow in further tables. */
export const memoryInstruments = (
  machine: ReelMachine,
  memory: ReelMemory,
  look: Look,
): readonly string[] => {
  const own = memory.instruments.filter((one) => one.machine === machine.id);
  const needed = own.filter(({ high }) => high > 0).toSorted(byMemory);
  const heading = machineHeading(machine.id, look);
  if (needed.length === 0)
    return paragraph([heading, 'has nothing to load for these cues.'], look.width);
  const unit = tableUnit(machine.full);
  const sums = sumColumns(machine, needed, memory.cues.length, unit);
  const [first, ...further] = inTables(
    sums,
    cueColumns(machine, needed, memory, unit, look),
    needed,
    look,
  );
  return [
    ...paragraph([heading, `(${plural(needed.length, 'instrument')} needed)`], look.width),
    '',
    ...draw(first ?? [], needed, look),
    ...further.flatMap((columns) => ['', ...draw(columns, needed, look)]),
    ...unneeded(own, look),
  ];
};

const sumColumns = (
  machine: ReelMachine,
  needed: readonly ReelInstrument[],
  cues: number,
  unit: ByteUnit,
): readonly FigureColumn[] => {
  const bytes = (count: number): Cell => fixed(bytesIn(count, unit));
  const of = (
    column: Omit<Column, 'align'> & Partial<Column>,
    cell: (one: ReelInstrument) => Cell,
    all: Cell,
  ): FigureColumn => ({ column: { align: 'right', ...column }, cells: needed.map(cell), all });
  return [
    of({ title: ['At once', unit.name] }, (one) => bytes(one.bytes), bytes(machine.bytes)),
    of({ title: [''], align: 'left' }, ({ basis }) => fixed(basisSign[basis]), fixed('')),
    ...([machine, ...needed].some(hasRange)
      ? [
          of(
            { title: ['Between', unit.name], leaveOut: 2 },
            (one) => betweenCell(one, unit),
            betweenCell(machine, unit),
          ),
        ]
      : []),
    of(
      { title: ['Most in', 'one cue', unit.name] },
      ({ peak }) => bytes(peak),
      bytes(machine.peak?.bytes ?? 0),
    ),
    of(
      { title: ['Cues'], leaveOut: 1 },
      (one) => fixed(`${formatCount(one.cues)}/${formatCount(cues)}`),
      fixed(''),
    ),
    of({ title: ['All', unit.name], leaveOut: 3 }, ({ full }) => bytes(full), bytes(machine.full)),
  ];
};

const cueColumns = (
  machine: ReelMachine,
  needed: readonly ReelInstrument[],
  { cues }: ReelMemory,
  unit: ByteUnit,
  look: Look,
): readonly FigureColumn[] =>
  cues.map(({ id, instruments, machines }) => {
    const byId = new Map(instruments.map((one): [string, CueInstrument] => [one.id, one]));
    const here = machines.find((one) => one.id === machine.id)?.bytes ?? 0;
    const bytes = (count: number): Cell => fixed(count === 0 ? '' : bytesIn(count, unit));
    return {
      column: {
        title: [cutMiddle(shownName(id, look), widestCue, dots(look)), unit.name],
        align: 'right',
      },
      cells: needed.map((one) => bytes(byId.get(one.id)?.bytes ?? 0)),
      all: bytes(here),
    };
  });

/** As many cues beside the sums as there is room for, the others in tables of their own. */
const inTables = (
  sums: readonly FigureColumn[],
  cues: readonly FigureColumn[],
  needed: readonly ReelInstrument[],
  look: Look,
): readonly (readonly FigureColumn[])[] => {
  if (look.width === null) return [[...sums, ...cues]];
  const room = look.width - namesWidth(needed, look);
  const tables: FigureColumn[][] = [[...sums]];
  let left = room - sums.reduce((sum, column) => sum + widthOf(column), 0);
  for (const cue of cues) {
    const width = widthOf(cue);
    const last = tables.at(-1)!;
    if (width > left && last.length > 0) {
      tables.push([cue]);
      left = room - width;
    } else {
      last.push(cue);
      left -= width;
    }
  }
  return tables;
};

const widthOf = ({ column, cells, all }: FigureColumn): number =>
  gap + widest([...column.title, ...[...cells, all].map(({ whole }) => whole)]);

const label = (look: Look): Cell => shortened(['Whole machine', 'Machine'], look.colors.bold);

const namesWidth = (needed: readonly ReelInstrument[], look: Look): number =>
  Math.max(
    widest(['Instrument', label(look).whole]),
    Math.min(widest(needed.map(({ id }) => shownName(id, look))), widestName),
  );

const draw = (
  columns: readonly FigureColumn[],
  needed: readonly ReelInstrument[],
  look: Look,
): readonly string[] => {
  const { text, leftOut } = layOut(
    [{ title: ['Instrument'], align: 'left', min: 10 }, ...columns.map(({ column }) => column)],
    [
      ...needed.map(({ id }, i) => [name(id, look), ...columns.map(({ cells }) => cells[i]!)]),
      'rule',
      [label(look), ...columns.map(({ all }) => all)],
    ],
    look,
  );
  return [text, ...notShown(leftOut, look)];
};

/** Of these nothing has to be loaded at all. */
const unneeded = (own: readonly ReelInstrument[], look: Look): readonly string[] => {
  const idle = own.filter(({ high }) => high === 0).toSorted(byMemory);
  if (idle.length === 0) return [];
  const shown = idle
    .slice(0, look.details === true ? Infinity : 8)
    .map(({ id, full }) => `${nameInText(id, look)} (${formatBytes(full)})`);
  const more = idle.length - shown.length;
  const rest = more > 0 ? ` and ${formatCount(more)} more` : '';
  return paragraph([`Needed by no cue: ${shown.join(', ')}${rest}.`], look.width);
};
