import type { Worklist } from '../trim/worklist/worklist.ts';
import { formatBytes, formatCount, plural } from './format.ts';
import type { Look } from './look.ts';
import { messageOf } from './messages.ts';
import { nameInText } from './name-list.ts';
import { paragraph, type Paragraph } from './paragraph.ts';
import { numberRanges } from './worklist-words.ts';

export const openActions = ({ machines }: Worklist): number =>
  machines.reduce((sum, { actions }) => sum + actions.length, 0);

/** The answer in one sentence, without any name. */
export const worklistAnswer = (list: Worklist): string => {
  const open = openActions(list);
  if (open === 0) return 'Nothing to do: what is loaded is what the plan keeps.';
  const { machines } = list;
  const busy = machines.filter(({ actions }) => actions.length > 0).length;
  const sum = (when: 'now' | 'after'): string =>
    formatBytes(machines.reduce((total, { bytes }) => total + bytes[when], 0));
  const all = open === 1 ? 'it is' : 'all are';
  return `${plural(open, 'step')} by hand on ${plural(busy, 'machine')}: ${sum('now')} loaded now, ${sum('after')} when ${all} done.`;
};

/** How far the list is, and whether its numbers last; in sentences. */
export const worklistState = (list: Worklist): readonly string[] => {
  const { done, void: gone } = list;
  const all = done.length + openActions(list);
  return [
    ...(done.length === 0
      ? []
      : [
          `${formatCount(done.length)} of ${plural(all, 'step')} ${done.length === 1 ? 'is' : 'are'} done.`,
        ]),
    ...(gone.length === 0
      ? []
      : [
          `Never done and no longer wanted: ${numberRanges(gone.map(({ number }) => number))}. No other step gets ${gone.length === 1 ? 'that number' : 'those numbers'}.`,
        ]),
  ];
};

/** What a person has to know before the first step: the list's own warnings. */
export const worklistWarnings = ({ findings }: Worklist): readonly string[] =>
  findings
    .filter(({ code, severity }) => severity !== 'note' && code.startsWith('worklist-'))
    .map((found) => {
      const { message, hint } = messageOf(found);
      return hint === '' ? message : `${message} ${hint}`;
    });

/** Whether numbers last; nothing where there are none. */
export const worklistNumbers = (list: Worklist, look: Look): Paragraph | null => {
  if (list.ledger !== null) {
    return [`Numbers and ticks are kept in ${nameInText(list.ledger.path, look)}.`];
  }
  if (openActions(list) === 0) return null;
  return [
    {
      text: '! These numbers hold for this list alone: --loaded loaded.csv keeps them.',
      paint: look.colors.yellow,
    },
  ];
};

/** The answer first: how much there is to do, what is done, and what stands against relying on it. */
export const worklistVerdict = (list: Worklist, look: Look): readonly string[] => {
  const { colors, width } = look;
  const isDone = openActions(list) === 0;
  const numbers = worklistNumbers(list, look);
  const lines: readonly Paragraph[] = [
    [
      {
        text: worklistAnswer(list),
        paint: (text) => colors.bold(isDone ? colors.green(text) : text),
      },
    ],
    ...worklistState(list).map((sentence) => [sentence]),
    ...(numbers === null ? [] : [numbers]),
    ...worklistWarnings(list).map((text) => [{ text: `! ${text}`, paint: colors.yellow }]),
  ];
  return lines.flatMap((line) => paragraph(line, width));
};
