import type { Plan, PlanInstrument } from '../keep/plan.ts';
import { byCodePoint } from '../terms/code-point-order.ts';
import { formatCount } from './format.ts';
import { instrumentTable } from './instrument-table.ts';
import type { Look } from './look.ts';
import { notesOf } from './machine-table.ts';
import { nameList } from './name-list.ts';
import { paragraph, type Paragraph } from './paragraph.ts';

/** More tables than this nobody reads through: only those that keep the most memory. */
const mostTables = 8;

const byKept = (a: PlanInstrument, b: PlanInstrument): number =>
  b.bytes.kept - a.bytes.kept || byCodePoint(a.id, b.id);

/** Which instruments have a table of their own. */
interface Chosen {
  /** Part of them stays, the ones that keep the most memory first. */
  readonly shown: readonly PlanInstrument[];
  readonly partly: number;
}

const choose = ({ instruments }: Plan, look: Look): Chosen => {
  const partly = instruments
    .filter(({ zones, zonesKept }) => zonesKept > 0 && zonesKept < zones)
    .toSorted(byKept);
  return {
    shown: look.details === true ? partly : partly.slice(0, mostTables),
    partly: partly.length,
  };
};

/** Instruments with nothing to choose within them, in a line each kind. */
const summary = (plan: Plan, { shown, partly }: Chosen, look: Look): readonly string[] => {
  const { instruments } = plan;
  const line = (label: string, own: readonly PlanInstrument[]): readonly Paragraph[] =>
    own.length === 0
      ? []
      : [
          [
            { text: label, paint: look.colors.bold },
            `${nameList(
              own.map(({ id }) => id),
              look,
            )}.`,
          ],
        ];
  const none = instruments.filter(({ zonesKept }) => zonesKept === 0);
  const lines: readonly Paragraph[] = [
    ...line(
      'Kept whole:',
      instruments.filter(({ zones, zonesKept }) => zonesKept > 0 && zonesKept === zones),
    ),
    ...line(
      'Not played, to be left out:',
      none.filter((one) => notesOf(one) === 0),
    ),
    ...line(
      'Played, but the notes reach nothing; check the routes:',
      none.filter((one) => notesOf(one) > 0),
    ),
    ...(shown.length === partly
      ? []
      : [
          [
            `Kept in part: ${formatCount(partly)}. The ${formatCount(shown.length)} that keep the most memory follow;`,
            '--verbose shows all of them, and --format json has every zone.',
          ],
        ]),
  ];
  return lines.flatMap((each) => paragraph(each, look.width));
};

/** What stays of each instrument, as far as a person wants to read it; a section each. */
export const instrumentSections = (plan: Plan, look: Look): readonly (readonly string[])[] => {
  const chosen = choose(plan, look);
  const lines = summary(plan, chosen, look);
  return [
    ...(lines.length === 0 ? [] : [lines]),
    ...chosen.shown.map((instrument) => instrumentTable(instrument, plan.settings.pins, look)),
  ];
};
