import { byCodePoint } from '../terms/code-point-order.ts';
import type { BeforeAfter, Trim, TrimmedInstrument } from '../trim/trim.ts';
import { fixed, name, shortened, type Cell } from './cell.ts';
import { widest } from './column-widths.ts';
import { bytesIn, formatCount, tableUnit } from './format.ts';
import type { Look } from './look.ts';
import { layOutWithSpare, type SpareColumn } from './spare-columns.ts';
import { notShown } from './table.ts';

/** A column with what it shows of an instrument and of all of them. */
interface Shown {
  readonly column: SpareColumn;
  readonly cell: (one: TrimmedInstrument) => Cell;
  readonly all: Cell;
}

/** The total leaves out what can't be rewritten. */
export const isCounted = ({ outcome }: TrimmedInstrument): boolean => outcome !== 'unwritable';

/** What takes most of the disk afterwards first; then what took most of it. */
const bySize = (a: TrimmedInstrument, b: TrimmedInstrument): number =>
  b.disk.after - a.disk.after || b.disk.before - a.disk.before || byCodePoint(a.id, b.id);

type Amount = 'zones' | 'samples' | 'disk' | 'memory';

/** Of what there was so much stays. */
const stay = (title: string, of: 'zones' | 'samples', trim: Trim, leaveOut: number): Shown => {
  const cell = ({ before, after }: BeforeAfter): Cell =>
    fixed(`${formatCount(after)}/${formatCount(before)}`);
  return {
    column: { title: [title, 'kept'], align: 'right', leaveOut },
    cell: (one) => cell(one[of]),
    all: cell(trim.total[of]),
  };
};

const sizes = (trim: Trim, { colors }: Look): readonly Shown[] => {
  const { instruments, total } = trim;
  const unit = tableUnit(
    Math.max(
      ...[total, ...instruments].flatMap(({ disk, memory }) => [disk.before, memory.before]),
    ),
  );
  const size = (
    title: string,
    of: 'disk' | 'memory',
    when: keyof BeforeAfter,
    leaveOut?: number,
  ): Shown => {
    const cell = ({ [of]: { before, after } }: Pick<TrimmedInstrument, Amount>): Cell =>
      fixed(
        bytesIn(when === 'before' ? before : after, unit),
        when === 'after' && after < before ? colors.green : undefined,
      );
    return {
      column: {
        title: [title, when, unit.name],
        align: 'right',
        ...(leaveOut === undefined ? {} : { leaveOut }),
      },
      cell,
      all: cell(total),
    };
  };
  return [
    size('On disk', 'disk', 'before'),
    size('On disk', 'disk', 'after'),
    size('Memory', 'memory', 'before', 1),
    size('Memory', 'memory', 'after', 0),
  ];
};

/** Where it is, or why it is not there. */
const file = ({ path }: TrimmedInstrument, look: Look): Cell => {
  if (path !== null) return name(path, look);
  return fixed('none: nothing of it stays', look.colors.dim);
};

/** What became of each instrument that can be written, a row each, and of all of them. */
export const trimRows = (trim: Trim, look: Look): readonly string[] => {
  const instruments = trim.instruments.filter(isCounted).toSorted(bySize);
  if (instruments.length === 0) return [];
  const severalMachines = new Set(instruments.map(({ machine }) => machine)).size > 1;
  const shown: readonly Shown[] = [
    {
      column: { title: ['Instrument'], align: 'left', min: 10 },
      cell: ({ id }) => name(id, look),
      all: shortened(['In all'], look.colors.bold),
    },
    ...(severalMachines
      ? [
          {
            column: { title: ['Machine'], align: 'left', min: 7, leaveOut: 4 } as const,
            cell: ({ machine }: TrimmedInstrument) => name(machine, look),
            all: fixed(''),
          },
        ]
      : []),
    stay('Zones', 'zones', trim, 2),
    stay('Samples', 'samples', trim, 3),
    ...sizes(trim, look),
    {
      column: { title: ['File'], align: 'left', leaveOut: 9, spare: true },
      cell: (one) => file(one, look),
      all: fixed(''),
    },
  ];
  const { text, leftOut } = layOutWithSpare(
    shown.map(({ column }) => column),
    [
      ...instruments.map((one) => shown.map(({ cell }) => cell(one))),
      'rule',
      shown.map(({ all }) => all),
    ],
    look,
    widest(instruments.map(({ id }) => name(id, look).whole)),
  );
  return [text, ...notShown(leftOut, look)];
};
