import type { CueMachine, CueMemory, ReelMachine, ReelMemory } from '../keep/reel/reel-memory.ts';
import { fixed, name, shortened, shownName, type Cell } from './cell.ts';
import { bytesIn, formatDuration, tableUnit, type ByteUnit } from './format.ts';
import { dots, type Look } from './look.ts';
import { usedMachines } from './memory-verdict.ts';
import { layOut, notShown, type Column } from './table.ts';
import { cutMiddle } from './text-width.ts';

/** A name of a machine above a column of figures: longer ones would push others out. */
const widestTitle = 12;

export const machineTitle = (id: string, look: Look): string =>
  cutMiddle(shownName(id, look), widestTitle, dots(look));

/** What is needed of a machine, marked where that does not fit. */
export const fitCell = (here: CueMachine | undefined, unit: ByteUnit, { colors }: Look): Cell => {
  if (here === undefined) return fixed('');
  const text = bytesIn(here.bytes, unit);
  return here.fits === false ? fixed(`! ${text}`, colors.red) : fixed(text);
};

/** What the cue that needs most of a machine is there. */
const peakState = ({ id, peak }: ReelMachine, cues: readonly CueMemory[]): CueMachine => {
  const here = cues
    .find((cue) => cue.id === peak?.cue)
    ?.machines.find((machine) => machine.id === id);
  return here ?? { id, bytes: 0, low: 0, high: 0, load: 0, mayGo: 0, fits: null };
};

/** Each cue over all machines; nothing where there is one machine. */
export const memoryOverview = (memory: ReelMemory, look: Look): readonly string[] => {
  const machines = usedMachines(memory);
  const { cues, total } = memory;
  if (machines.length < 2 || cues.length === 0) return [];
  const { bold } = look.colors;
  const unit = tableUnit(total.full);
  const bytes = (count: number): Cell => fixed(bytesIn(count, unit));
  const columns: readonly Column[] = [
    { title: ['Cue'], align: 'left', min: 11 },
    { title: ['Length'], align: 'right', leaveOut: 2 },
    ...machines.map(({ id }, i): Column => ({
      title: [machineTitle(id, look), unit.name],
      align: 'right',
      leaveOut: 10 + i,
    })),
    { title: ['All', 'machines', unit.name], align: 'right' },
    { title: ['To load', unit.name], align: 'right' },
    { title: ['May go', unit.name], align: 'right', leaveOut: 1 },
  ];
  const cueRow = (cue: CueMemory): readonly Cell[] => [
    name(cue.id, look),
    fixed(formatDuration(cue.seconds)),
    ...machines.map(({ id }) =>
      fitCell(
        cue.machines.find((one) => one.id === id),
        unit,
        look,
      ),
    ),
    bytes(cue.bytes),
    bytes(cue.load),
    bytes(cue.mayGo),
  ];
  const sumRow = (
    label: Cell,
    of: (machine: (typeof machines)[number]) => Cell,
    all: Cell,
  ): readonly Cell[] => [label, fixed(''), ...machines.map(of), all, fixed(''), fixed('')];
  const { text, leftOut } = layOut(
    columns,
    [
      ...cues.map(cueRow),
      'rule',
      // Of one cue its own row says it.
      ...(cues.length === 1
        ? []
        : [
            sumRow(
              shortened(['All cues at once', 'All cues', 'All'], bold),
              (one) => fitCell({ ...one, load: 0, mayGo: 0 }, unit, look),
              bytes(total.bytes),
            ),
            sumRow(
              shortened(['Most at a time', 'Most'], bold),
              (one) => fitCell(peakState(one, cues), unit, look),
              bytes(total.peak?.bytes ?? 0),
            ),
          ]),
      sumRow(
        shortened(['All instruments', 'Instruments'], bold),
        ({ full }) => bytes(full),
        bytes(total.full),
      ),
    ],
    look,
  );
  return [look.colors.bold('All machines'), '', text, ...notShown(leftOut, look)];
};
