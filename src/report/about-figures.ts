import type { Plan, PlanInstrument } from '../keep/plan.ts';
import { keyName } from '../terms/key.ts';
import { bullets } from './bullets.ts';
import { basisSentences } from './figure-basis.ts';
import { nounsOf } from './instrument-nouns.ts';
import type { Look } from './look.ts';
import { nameList } from './name-list.ts';

/** What the figures rest on, and the caution before anything is unloaded. */
export const aboutFigures = (plan: Plan, isTemplate: boolean, look: Look): readonly string[] => {
  const many = [...new Set(plan.instruments.map((instrument) => nounsOf(instrument).many))];
  return bullets(
    'About these figures',
    [
      ...(isTemplate ? templateBasis(plan, look) : singleBasis),
      ...(many.length === 0
        ? []
        : [
            `A sample that several ${many.join(' or ')} share counts in each row, and once in the totals.`,
          ]),
      ...oneDefinition(plan, look),
      `Keys: middle C is ${keyName(60, look.middleC)} (60).`,
      'Settle a doubt only when you know the answer: what it kept is dropped then.',
      'Keep the full instruments somewhere safe. Make the plan again when a cue changes, and listen before you delete anything.',
    ].map((sentence) => [sentence]),
    look,
  );
};

/** Names in a sentence about one definition. */
const mostNamed = 5;

/** Instruments that hold a sample once between them (design, section 7), a sentence each group. */
const oneDefinition = ({ instruments }: Plan, look: Look): readonly string[] => {
  const groups = new Map<string, PlanInstrument[]>();
  for (const one of instruments.filter(({ shares }) => shares === 'machine')) {
    const key = JSON.stringify([one.machine, one.sha256, one.player]);
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups.values()].filter(({ length }) => length > 1).map((group) => alike(group, look));
};

const alike = (group: readonly PlanInstrument[], look: Look): string =>
  `${nameList(
    group.map(({ id }) => id),
    look,
    mostNamed,
  )}: one definition on one machine. Their samples count in each row, and once in the totals.`;

const singleBasis: readonly string[] = [
  'Memory is computed from the sample headers: length x channels x bytes per sample point. A player adds some of its own, so its display may differ.',
];

const templateBasis = ({ instruments, machines }: Plan, look: Look): readonly string[] => {
  const shared = instruments.some(
    ({ copies }) => copies.length > 1 && copies.every(({ kept }) => kept === null),
  );
  const apart = instruments.some(({ copies }) => copies.some(({ kept }) => kept !== null));
  return [
    'All figures are estimates: the display of the player has the last word, and readings of it in the template bring them closer.',
    ...basisSentences(instruments, look),
    ...(shared
      ? [
          'Copies that share: every copy loads the same zones, and each sample counts once on its machine.',
        ]
      : []),
    ...(apart
      ? ['Copies that do not share: each loads only what it needs itself, and counts by itself.']
      : []),
    'What a copy takes by itself stands in the last row of a table, not in the rows above.',
    ...(machines.some(({ budget }) => budget !== null)
      ? ['A machine fits when the highest figure does.']
      : []),
  ];
};
