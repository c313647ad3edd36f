import type { Amount, DiffAmounts, DiffInstrument, DiffMachine } from '../keep/compare/diff.ts';
import { fixed, name, shortened, type Cell } from './cell.ts';
import { bytesIn, formatCount, plural, tableUnit } from './format.ts';
import type { Look } from './look.ts';
import { nameInText } from './name-list.ts';
import { paragraph } from './paragraph.ts';
import { layOut, notShown, type Column } from './table.ts';

/** What an instrument has to do on one machine: where it moved, it is unloaded here or loaded. */
const onMachine = (instrument: DiffInstrument, machine: string): DiffAmounts => {
  const { from, to } = instrument.machine;
  const nothing: Amount = { zones: 0, samples: 0, bytes: 0 };
  return {
    load: to === machine ? instrument.load : nothing,
    unload: from === machine ? instrument.unload : nothing,
    unchanged: instrument.unchanged,
  };
};

/** A column with what it shows of an instrument or of the machine. */
interface Shown {
  readonly column: Column;
  readonly cell: (one: DiffAmounts) => Cell;
}

/** What there is to do on a machine: a row for each of its instruments that change, and the sum. */
export const diffMachineTable = (
  machine: DiffMachine,
  changed: readonly DiffInstrument[],
  look: Look,
): readonly string[] => {
  const { colors, width } = look;
  const own = changed.filter(
    ({ machine: { from, to } }) => from === machine.id || to === machine.id,
  );
  if (own.length === 0) return [];
  const amounts = own.map((one) => onMachine(one, machine.id));
  const figures = [machine, ...amounts].flatMap(({ load, unload, unchanged }) =>
    [load, unload, unchanged].map(({ bytes }) => bytes ?? 0),
  );
  const unit = tableUnit(Math.max(...figures));
  const zones = (title: string, of: (one: DiffAmounts) => Amount, leaveOut?: number): Shown => ({
    column: {
      title: [title, 'zones'],
      align: 'right',
      ...(leaveOut === undefined ? {} : { leaveOut }),
    },
    cell: (one) => fixed(formatCount(of(one).zones)),
  });
  const memory = (
    title: string,
    of: (one: DiffAmounts) => Amount,
    leaveOut: number,
    paint?: Cell['paint'],
  ): readonly Shown[] =>
    // Where nothing is known of any instrument, the findings say so.
    figures.every((bytes) => bytes === 0)
      ? []
      : [
          {
            column: { title: [title, unit.name], align: 'right', leaveOut },
            cell: (one) => {
              const { bytes } = of(one);
              if (bytes === null) return fixed('?');
              return fixed(bytesIn(bytes, unit), bytes > 0 ? paint : undefined);
            },
          },
        ];
  const shown: readonly Shown[] = [
    zones('Load', ({ load }) => load),
    ...memory('Load', ({ load }) => load, 0, colors.green),
    zones('Unload', ({ unload }) => unload),
    ...memory('Unload', ({ unload }) => unload, 1, colors.yellow),
    zones('Stay', ({ unchanged }) => unchanged, 3),
    ...memory('Stay', ({ unchanged }) => unchanged, 2),
  ];
  const columns: readonly Column[] = [
    { title: ['Instrument'], align: 'left', min: 10 },
    ...shown.map(({ column }) => column),
  ];
  const row = (label: Cell, one: DiffAmounts): readonly Cell[] => [
    label,
    ...shown.map(({ cell }) => cell(one)),
  ];
  const { text, leftOut } = layOut(
    columns,
    [
      ...own.map((one, i) => row(name(one.id, look), amounts[i]!)),
      'rule',
      row(shortened(['Whole machine', 'Machine'], colors.bold), machine),
    ],
    look,
  );
  return [
    ...paragraph(
      [
        {
          text: `Machine ${nameInText(machine.id, look)}`,
          paint: (label) => colors.bold(colors.cyan(label)),
        },
        `(${plural(own.length, 'instrument')} with something to do)`,
      ],
      width,
    ),
    '',
    text,
    ...notShown(leftOut, look),
  ];
};
