import type { Plan, PlanDoubt } from '../keep/plan.ts';
import { fixed, words, type Cell } from './cell.ts';
import { doubtAdvice, isAnyAccepted } from './doubt-advice.ts';
import { bytesIn, formatBytes, formatCount, tableUnit } from './format.ts';
import type { Look } from './look.ts';
import { doubtWords } from './messages/doubts.ts';
import { paragraph } from './paragraph.ts';
import { layOut, notShown, type Row } from './table.ts';

const answers = { open: 'open', accept: 'accepted', plain: 'plain' } as const;

/** What the price of an answered doubt is. */
const effects = {
  accept: 'Accepted: the price stays in memory on your word.',
  plain: 'Plain: the price has been freed on your word.',
} as const;

const turn = { open: 0, accept: 1, plain: 2 } as const;

/** Open ones first, the dearest on top. */
const byPrice = (a: PlanDoubt, b: PlanDoubt): number =>
  turn[a.settled ?? 'open'] - turn[b.settled ?? 'open'] ||
  b.bytes - a.bytes ||
  b.zones - a.zones ||
  (a.name < b.name ? -1 : 1);

/** What the files do not tell, the dearest first, with what knowing it would free or has freed. */
export const doubtsTable = (plan: Plan, isTemplate: boolean, look: Look): readonly string[] => {
  const { colors } = look;
  const { doubts, together, doubtsAll } = plan;
  if (doubts.length === 0) {
    return paragraph(
      ['Nothing is in doubt: the files as they are reach every zone that is kept.'],
      look.width,
    );
  }
  const sorted = [...doubts].sort(byPrice);
  const unit = tableUnit(Math.max(doubtsAll, ...doubts.map(({ bytes }) => bytes)));
  const price = (bytes: number, settled: PlanDoubt['settled'] = null): Cell =>
    fixed(
      bytesIn(bytes, unit),
      bytes === 0 || settled === 'accept'
        ? undefined
        : settled === 'plain'
          ? colors.green
          : colors.yellow,
    );
  const rows: readonly Row[] = [
    ...sorted.map(({ name, settled, zones, bytes }): readonly Cell[] => [
      fixed(name),
      words(doubtWords[name]),
      fixed(answers[settled ?? 'open']),
      fixed(formatCount(zones)),
      price(bytes, settled),
    ]),
    ...[...together]
      .sort((a, b) => b.bytes - a.bytes)
      .map(({ names, bytes }): readonly Cell[] => [
        fixed('together'),
        words(names.join(' and ')),
        fixed(''),
        fixed(''),
        price(bytes),
      ]),
    'rule',
    [
      fixed('all', colors.bold),
      words(isAnyAccepted(plan) ? 'all, open and accepted' : 'all that are open'),
      fixed(''),
      fixed(''),
      price(doubtsAll),
    ],
  ];
  const { text, leftOut } = layOut(
    [
      { title: ['Doubt'], align: 'left' },
      { title: ['The files', 'do not tell'], align: 'left', min: 12 },
      { title: ['Answer'], align: 'left', leaveOut: 2 },
      { title: ['Zones'], align: 'right', leaveOut: 1 },
      { title: ['Price', unit.name], align: 'right' },
    ],
    rows,
    look,
  );
  const headline =
    doubtsAll === 0
      ? 'Caution costs nothing here: what is in doubt is needed anyway.'
      : `Caution costs ${formatBytes(doubtsAll)}: kept only because of what the files do not tell.`;
  return [
    ...paragraph([{ text: headline, paint: colors.bold }], look.width),
    '',
    text,
    ...(['accept', 'plain'] as const)
      .filter((answer) => doubts.some(({ settled }) => settled === answer))
      .flatMap((answer) => paragraph([effects[answer]], look.width)),
    ...(together.length === 0
      ? []
      : paragraph(['Together: settled at once they free more than one by one.'], look.width)),
    ...doubtAdvice(plan, sorted, isTemplate, look),
    ...notShown(leftOut, look),
  ];
};
