import type { Plan, PlanDoubt, PlanInstrument } from '../keep/plan.ts';
import { byCodePoint } from '../terms/code-point-order.ts';
import type { DoubtName } from '../terms/doubt.ts';
import type { Look } from './look.ts';
import { nameList } from './name-list.ts';
import { paragraph } from './paragraph.ts';

/** Doubts that have a line of their own, and instruments named in one. */
const mostLines = 5;
const mostPlaces = 3;

/** Zones that stay and that this doubt has a part in. */
const zonesIn = ({ kept }: PlanInstrument, name: DoubtName): number =>
  kept.filter(({ doubts }) => doubts.some((set) => set.includes(name))).length;

/** Instruments where the doubt is open and has a part in what stays, the one with most zones first. */
const placesOf = ({ instruments }: Plan, name: DoubtName): readonly string[] =>
  instruments
    .filter(({ settle }) => settle[name] === undefined)
    .map((instrument) => ({ id: instrument.id, zones: zonesIn(instrument, name) }))
    .filter(({ zones }) => zones > 0)
    .sort((a, b) => b.zones - a.zones || byCodePoint(a.id, b.id))
    .map(({ id }) => id);

/** True when an answer `accept` has a part in what stays, for the whole plan or one instrument. */
export const isAnyAccepted = ({ doubts, instruments }: Plan): boolean =>
  doubts.some(({ settled }) => settled === 'accept') ||
  instruments.some((instrument) =>
    doubts.some(
      ({ name }) => instrument.settle[name] === 'accept' && zonesIn(instrument, name) > 0,
    ),
  );

/** How to answer; `damage` has no answer: such a cue is exported again or left out. */
export const howToSettle = (open: readonly PlanDoubt[], isTemplate: boolean): string | null => {
  const example = open.find(({ name }) => name !== 'damage');
  if (example === undefined) return null;
  const inTemplate = isTemplate ? ', or settle: in the template' : '';
  const inRoute =
    isTemplate && open.some(({ name }) => name === 'no-switch')
      ? '; naming the articulation in a route answers no-switch too'
      : '';
  return `Settle one when you know the answer: --settle ${example.name}=plain${inTemplate}${inRoute}.`;
};

/** Where the open doubts with a price sit, and how to answer them; nothing where there are none. */
export const doubtAdvice = (
  plan: Plan,
  sorted: readonly PlanDoubt[],
  isTemplate: boolean,
  look: Look,
): readonly string[] => {
  const open = sorted.filter(({ settled, bytes }) => settled === null && bytes > 0);
  const places = isTemplate
    ? open.slice(0, mostLines).flatMap(({ name }) => {
        const ids = placesOf(plan, name);
        return ids.length === 0 ? [] : [`${name}: ${nameList(ids, look, mostPlaces)}`];
      })
    : [];
  const how = howToSettle(open, isTemplate);
  return [...places, ...(how === null ? [] : [how])].flatMap((line) =>
    paragraph([line], look.width),
  );
};
