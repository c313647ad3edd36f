import type { Overview } from '../../overview/overview.ts';
import { fixed, words, type Cell } from '../cell.ts';
import { howToSettle } from '../doubt-advice.ts';
import { bytesIn, formatCount, tableUnit } from '../format.ts';
import type { Look } from '../look.ts';
import { doubtWords } from '../messages/doubts.ts';
import { nameList } from '../name-list.ts';
import { paragraph } from '../paragraph.ts';
import { titledTable } from './titled-table.ts';

/** Doubts of which it is told where they are open, and instruments named for one. */
const mostLines = 5;
const mostPlaces = 3;

/** Open doubts that an answer would free something of, the dearest first. */
export const doubtLines = (overview: Overview, look: Look): readonly string[] => {
  const { doubts, doubtsAll, doubtsAt, instruments, template } = overview;
  if (doubts.length === 0) {
    return paragraph(
      ['Nothing is in doubt: the files as they are reach every zone that stays.'],
      look.width,
    );
  }
  const open = doubts
    .filter(({ settled, bytes }) => settled === null && bytes > 0)
    .sort((a, b) => b.bytes - a.bytes || b.zones - a.zones);
  if (open.length === 0) return paragraph(['No open doubt has a price.'], look.width);
  const unit = tableUnit(Math.max(doubtsAll, ...open.map(({ bytes }) => bytes)));
  const price = (bytes: number): Cell => fixed(bytesIn(bytes, unit), look.colors.yellow);
  const how = howToSettle(open, template !== null);
  const places = open.slice(0, mostLines).flatMap(({ name }) => {
    const at = doubtsAt.find((one) => one.name === name)?.instruments ?? [];
    const ids = at.map((one) => instruments[one]?.id ?? '');
    return at.length === 0 ? [] : [`${name}: ${nameList(ids, look, mostPlaces)}`];
  });
  return [
    ...titledTable(
      'Doubts by price',
      [
        { title: ['Doubt'], align: 'left' },
        { title: ['The files', 'do not tell'], align: 'left', min: 12 },
        { title: ['Zones'], align: 'right', leaveOut: 1 },
        { title: ['Frees', unit.name], align: 'right' },
      ],
      [
        ...open.map(({ name, zones, bytes }) => [
          fixed(name),
          words(doubtWords[name]),
          fixed(formatCount(zones)),
          price(bytes),
        ]),
        'rule',
        [fixed('all', look.colors.bold), words('all that are open'), fixed(''), price(doubtsAll)],
      ],
      look,
    ),
    ...[...places, ...(how === null ? [] : [how])].flatMap((line) => paragraph([line], look.width)),
  ];
};
