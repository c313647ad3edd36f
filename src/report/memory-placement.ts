import type { Placement } from '../keep/reel/reel-memory.ts';
import { printable } from '../terms/printable.ts';
import { bullets } from './bullets.ts';
import { fixed, name, type Cell } from './cell.ts';
import { bytesIn, formatBytes, plural, tableUnit } from './format.ts';
import type { Look } from './look.ts';
import { betweenCell, hasRange, largestOf } from './memory-words.ts';
import { nameInText } from './name-list.ts';
import { paragraph, type Paragraph } from './paragraph.ts';
import { layOut, notShown } from './table.ts';
import { verbatim } from './verbatim.ts';

/** Where instruments would go so that all fits; nothing where it was not asked for. */
export const memoryPlacement = (placement: Placement | null, look: Look): readonly string[] => {
  if (placement === null) return [];
  const { colors, width } = look;
  const heading = colors.bold('Placement of the instruments');
  const { state, moves } = placement;
  if (state !== 'placed') return [heading, ...paragraph(unplaced(state, look), width)];
  return [
    heading,
    ...bullets(
      `${plural(moves.length, 'instrument')} to move, ${formatBytes(placement.bytes)}, and every machine fits:`,
      moves.map(({ instrument, from, to, bytes }) => [
        `${nameInText(instrument, look)} from ${nameInText(from, look)} to ${nameInText(to, look)}: ${formatBytes(bytes)}`,
      ]),
      look,
    ),
    ...paragraph(
      [
        placement.gap === 0
          ? 'No other placement moves less.'
          : `Another placement might move up to ${formatBytes(placement.gap)} less.`,
      ],
      width,
    ),
    '',
    ...machinesThen(placement, look),
    ...lines(placement, look),
    '',
    ...paragraph(
      [
        'keepset moves nothing: change the template, load the instruments on the other machine, and plan again.',
      ],
      width,
    ),
  ];
};

const unplaced = (state: 'fits' | 'impossible' | 'open', { colors }: Look): Paragraph => {
  switch (state) {
    case 'fits':
      return [
        { text: 'Nothing has to move:', paint: colors.green },
        'everything fits where it is.',
      ];
    case 'impossible':
      return [
        { text: '! No placement fits:', paint: colors.red },
        'wherever the instruments go, some machine stays over its budget. That is proved.',
      ];
    case 'open':
      return [
        { text: '! No placement was found', paint: colors.yellow },
        'within the effort that is spent on it; there may still be one.',
      ];
  }
};

const machinesThen = ({ machines }: Placement, look: Look): readonly string[] => {
  const ranges = machines.some(hasRange);
  const unit = tableUnit(largestOf(machines.map(({ high, budget }) => budget ?? high)));
  const { text, leftOut } = layOut(
    [
      { title: ['Machine', 'then'], align: 'left', min: 8 },
      { title: ['Needs', unit.name], align: 'right' },
      ...(ranges ? [{ title: ['Between', unit.name], align: 'right' as const, leaveOut: 1 }] : []),
      { title: ['Budget', unit.name], align: 'right', leaveOut: 2 },
      { title: ['To spare', unit.name], align: 'right' },
    ],
    machines.map((one): readonly Cell[] => [
      name(one.id, look),
      fixed(bytesIn(one.bytes, unit)),
      ...(ranges ? [betweenCell(one, unit)] : []),
      fixed(one.budget === null ? 'none' : bytesIn(one.budget, unit)),
      one.budget === null
        ? fixed('')
        : one.high > one.budget
          ? fixed('! over', look.colors.red)
          : fixed(bytesIn(one.budget - one.high, unit)),
    ]),
    look,
  );
  return [text, ...notShown(leftOut, look)];
};

/** Lines to copy are not broken, however narrow the window is. */
const lines = ({ lines: changed }: Placement, look: Look): readonly string[] =>
  changed.length === 0
    ? []
    : [
        '',
        look.colors.bold('In the template'),
        ...changed.flatMap(({ line, replaces, instrument, text }) => [
          `${placeWords(line, replaces)} (${printable(instrument)}):`,
          ...verbatim([printable(text)], look),
        ]),
      ];

const placeWords = (line: number, replaces: number): string => {
  if (replaces === 0) return `add behind line ${String(line)}`;
  return replaces === 1
    ? `line ${String(line)} becomes`
    : `lines ${String(line)}-${String(line + replaces - 1)} become`;
};
