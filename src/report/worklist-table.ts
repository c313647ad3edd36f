import type { Worklist, WorklistMachine } from '../trim/worklist/worklist.ts';
import { bullets } from './bullets.ts';
import { fixed, name } from './cell.ts';
import { formatBytes, plural } from './format.ts';
import type { Look } from './look.ts';
import { nameInText } from './name-list.ts';
import { paragraph, type Paragraph } from './paragraph.ts';
import { layOut } from './table.ts';
import { worklistAdvice, type WorklistNames } from './worklist-advice.ts';
import { worklistRows } from './worklist-rows.ts';
import { worklistVerdict } from './worklist-verdict.ts';

export type { WorklistNames } from './worklist-advice.ts';

/** What a machine holds before and after, in sentences. */
export const machineState = ({ bytes, budget, actions }: WorklistMachine): readonly string[] => {
  const { now, after } = bytes;
  const room = budget === null ? '' : `; it can hold ${formatBytes(budget)}`;
  const over = budget === null ? 0 : after - budget;
  return [
    actions.length === 0
      ? `${formatBytes(now)} loaded${room}.`
      : `${formatBytes(now)} loaded now, ${formatBytes(after)} when all is done${room}.`,
    ...(over > 0 ? [`! That is ${formatBytes(over)} too much.`] : []),
  ];
};

const machineSection = (machine: WorklistMachine, look: Look): readonly string[] => {
  const { colors, width } = look;
  const { actions } = machine;
  const count = actions.length === 0 ? 'nothing to do' : plural(actions.length, 'step');
  const [state = '', ...over] = machineState(machine);
  const lines: readonly Paragraph[] = [
    [
      {
        text: `Machine ${nameInText(machine.id, look)}:`,
        paint: (text) => colors.bold(colors.cyan(text)),
      },
      `${count}.`,
      state,
      ...over.map((text) => ({ text, paint: colors.red })),
    ],
  ];
  return [
    ...lines.flatMap((line) => paragraph(line, width)),
    ...(actions.length === 0 ? [] : ['', ...worklistRows(machine, look)]),
  ];
};

/** What was done, where details are asked for. */
const doneSection = ({ done }: Worklist, look: Look): readonly string[] => {
  if (look.details !== true || done.length === 0) return [];
  const digits = String(done.reduce((most, { number }) => Math.max(most, number), 0)).length;
  const { text } = layOut(
    [
      { title: ['Done'], align: 'left' },
      { title: ['What'], align: 'left', min: 12 },
      { title: ['Seen'], align: 'right', leaveOut: 1 },
      { title: ['Note'], align: 'left', min: 8, leaveOut: 2 },
    ],
    done.map(({ number, key, seen, note }) => [
      fixed(`[x] ${String(number).padStart(digits, ' ')}`),
      name(key, look),
      fixed(seen === null ? '' : formatBytes(seen)),
      note === '' ? fixed('') : name(note, look),
    ]),
    look,
  );
  return [text];
};

/**
 * The list as a person works through it with a pencil: how much there is, then machine by machine what
 * to load and unload, and what to take care of.
 */
export const worklistTable = (list: Worklist, names: WorklistNames, look: Look): string => {
  const sections: readonly (readonly string[])[] = [
    worklistVerdict(list, look),
    ...list.machines.map((machine) => machineSection(machine, look)),
    doneSection(list, look),
    bullets(
      'How to use this list',
      worklistAdvice(list, names, look).map((sentence) => [sentence]),
      look,
    ),
  ];
  const filled = sections.filter(({ length }) => length > 0);
  return `${filled.map((lines) => lines.join('\n')).join('\n\n')}\n`;
};
