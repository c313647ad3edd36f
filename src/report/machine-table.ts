import type { Plan, PlanInstrument, PlanMachine } from '../keep/plan.ts';
import { byCodePoint } from '../terms/code-point-order.ts';
import { fixed, name, shortened, type Cell } from './cell.ts';
import { widest } from './column-widths.ts';
import { basisSign } from './figure-basis.ts';
import { bytesIn, formatCount, plural, tableUnit } from './format.ts';
import type { Look } from './look.ts';
import { machineFit } from './machine-fit.ts';
import { nameInText } from './name-list.ts';
import { paragraph, type Part } from './paragraph.ts';
import { layOut, notShown, type Column } from './table.ts';

const sum = <T>(items: readonly T[], value: (item: T) => number): number =>
  items.reduce((total, item) => total + value(item), 0);

export const notesOf = ({ copies }: PlanInstrument): number => sum(copies, ({ notes }) => notes);

/** What keeps most first; then what is not needed, the largest first. */
const byMemory = (a: PlanInstrument, b: PlanInstrument): number =>
  b.bytes.kept - a.bytes.kept || b.bytes.full - a.bytes.full || byCodePoint(a.id, b.id);

/** What an instrument of which nothing stays is, and what to do with it. */
const unneeded = (instrument: PlanInstrument, { colors }: Look): Cell =>
  notesOf(instrument) === 0
    ? shortened(['not played: leave it out', 'not played', 'unplayed'], colors.green)
    : shortened(['its notes reach nothing: check', 'reach nothing', 'check'], colors.yellow);

/** A column with what it shows of an instrument and of the machine as a whole. */
interface LoadColumn {
  readonly column: Column;
  readonly cell: (instrument: PlanInstrument) => Cell;
  readonly all: Cell;
}

const isNeeded = ({ zonesKept }: PlanInstrument): boolean => zonesKept > 0;

/** Who plays it, how often and how much. */
const playing = (instruments: readonly PlanInstrument[], look: Look): readonly LoadColumn[] => [
  {
    column: { title: ['Instrument'], align: 'left', min: 10 },
    cell: ({ id }) => name(id, look),
    all: shortened(['Whole machine', 'Machine'], look.colors.bold),
  },
  {
    column: { title: ['Player'], align: 'left', min: 8, leaveOut: 3 },
    cell: (one) => (isNeeded(one) ? name(one.player, look) : unneeded(one, look)),
    all: fixed(''),
  },
  {
    column: { title: ['Unloads by'], align: 'left', leaveOut: 7 },
    cell: (one) => fixed(isNeeded(one) ? one.unloads : ''),
    all: fixed(''),
  },
  {
    column: { title: ['Copies'], align: 'right', leaveOut: 9 },
    cell: ({ copies }) => fixed(formatCount(copies.length)),
    all: fixed(formatCount(sum(instruments, ({ copies }) => copies.length))),
  },
  {
    column: { title: ['Notes'], align: 'right', leaveOut: 8 },
    cell: (one) =>
      isNeeded(one) && notesOf(one) === 0
        ? fixed('none', look.colors.yellow)
        : fixed(formatCount(notesOf(one))),
    all: fixed(formatCount(sum(instruments, notesOf))),
  },
];

const zonesColumn = (instruments: readonly PlanInstrument[]): LoadColumn => {
  const of = (kept: number, all: number): Cell => fixed(`${formatCount(kept)}/${formatCount(all)}`);
  return {
    column: { title: ['Zones', 'kept'], align: 'right', leaveOut: 5 },
    cell: ({ zones, zonesKept }) => of(zonesKept, zones),
    all: of(
      sum(instruments, ({ zonesKept }) => zonesKept),
      sum(instruments, ({ zones }) => zones),
    ),
  };
};

/** What it takes, with the range of the figures where there is one. */
const memory = (
  { bytes }: PlanMachine,
  instruments: readonly PlanInstrument[],
  { colors }: Look,
): readonly LoadColumn[] => {
  const figures = [bytes, ...instruments.map((one) => one.bytes)];
  const unit = tableUnit(Math.max(...figures.map(({ full }) => full)));
  const amount = (count: number): Cell => fixed(bytesIn(count, unit));
  const saved = ({ full, kept }: PlanMachine['bytes']): Cell =>
    fixed(bytesIn(full - kept, unit), full > kept ? colors.green : undefined);
  const between = ({ low, high }: PlanMachine['bytes']): Cell =>
    low === high
      ? fixed('')
      : shortened([
          `${bytesIn(low, unit)}-${bytesIn(high, unit)}`,
          `${formatCount(Math.floor(low / unit.size))}-${formatCount(Math.ceil(high / unit.size))}`,
        ]);
  const narrowest = widest(figures.map((one) => between(one).fit(0)));
  const range: LoadColumn = {
    column: { title: ['Between', unit.name], align: 'right', min: narrowest, leaveOut: 2 },
    cell: (one) => between(one.bytes),
    all: between(bytes),
  };
  return [
    {
      column: { title: ['Reached', unit.name], align: 'right', leaveOut: 4 },
      cell: (one) => amount(one.bytes.reached),
      // What instruments share counts once in the sum, and what is reached of that is not told.
      all: fixed(''),
    },
    {
      column: { title: ['Kept', unit.name], align: 'right' },
      cell: (one) => amount(one.bytes.kept),
      all: amount(bytes.kept),
    },
    {
      column: { title: [''], align: 'left' },
      cell: (one) => fixed(isNeeded(one) ? basisSign[one.bytes.basis] : '', colors.dim),
      all: fixed(''),
    },
    ...(narrowest === 0 ? [] : [range]),
    {
      column: { title: ['All', unit.name], align: 'right', leaveOut: 1 },
      cell: (one) => amount(one.bytes.full),
      all: amount(bytes.full),
    },
    {
      column: { title: ['Saved', unit.name], align: 'right' },
      cell: (one) => saved(one.bytes),
      all: saved(bytes),
    },
  ];
};

/** What a machine has to load: a row for each instrument, and its sum. */
export const machineTable = (machine: PlanMachine, plan: Plan, look: Look): readonly string[] => {
  const { colors, width } = look;
  const instruments = plan.instruments.filter((one) => one.machine === machine.id);
  const heading: Part = {
    text: `Machine ${nameInText(machine.id, look)}`,
    paint: (text) => colors.bold(colors.cyan(text)),
  };
  if (instruments.length === 0) return paragraph([heading, 'has nothing to load.'], width);
  const columns = [
    ...playing(instruments, look),
    zonesColumn(instruments),
    ...memory(machine, instruments, look),
  ];
  const { text, leftOut } = layOut(
    columns.map(({ column }) => column),
    [
      ...instruments.toSorted(byMemory).map((one) => columns.map(({ cell }) => cell(one))),
      'rule',
      columns.map(({ all }) => all),
    ],
    look,
  );
  return [
    ...paragraph([heading, `(${plural(instruments.length, 'instrument')})`], width),
    '',
    text,
    ...paragraph(machineFit(machine, look), width),
    ...notShown(leftOut, look),
  ];
};
