import type { Overview, Reduction } from '../../overview/overview.ts';
import type { OverviewList } from '../../overview/overview-steps.ts';
import { amount } from './figures.ts';
import { markup, type Html } from './html.ts';
import { plural } from './numbers.ts';

/** What a large page says of its maps, where they tell less than they might. */
const ofMaps: readonly (readonly [Reduction, Html])[] = [
  ['long-names', markup`Long names are cut in the middle.`],
  ['one-witness', markup`Of the notes that keep a place only the first is named.`],
  ['no-witness', markup`The notes that keep a place are not named.`],
  [
    'cells-alike',
    markup`Places beside each other that differ only in how many zones they have are drawn as one, with the most that one of its keys has.`,
  ],
  ['cells-of-a-state', markup`Places of one state beside each other are drawn as one.`],
  ['octaves', markup`Keys are drawn by the octave: it is kept where one of its keys is.`],
  [
    'layers',
    markup`The layers of an articulation are drawn as one row, their zones added, by the octave: it is kept where one of its keys is.`,
  ],
  ['maps', markup`The maps are left out.`],
];

/** What says the same less closely is said instead. */
const overruled: Readonly<Partial<Record<Reduction, readonly Reduction[]>>> = {
  'one-witness': ['no-witness'],
  'cells-alike': ['cells-of-a-state', 'octaves', 'layers'],
  'cells-of-a-state': ['octaves', 'layers'],
  octaves: ['layers'],
};

/** null: the maps tell all there is. */
export const mapsReduced = ({ reduced }: Overview): Html | null => {
  const isOff = reduced.includes('maps');
  const said = ofMaps.filter(([name]) => {
    if (!reduced.includes(name) || (isOff && name !== 'maps')) return false;
    return !(overruled[name] ?? []).some((other) => reduced.includes(other));
  });
  if (said.length === 0) return null;
  return markup`<p>So that this page stays small, its maps tell less: ${said.map(([, words]) => markup`${words} `)}<code>keepset inspect</code> and <code>keepset why</code> tell all of an instrument.</p>`;
};

/** Steps that are not on the list. */
export const stepsReduced = ({ unlisted: { steps, frees } }: OverviewList): Html | null =>
  steps === 0
    ? null
    : markup`<p>${plural(steps, 'more step')}, which free less, ${steps === 1 ? 'is' : 'are'} left out so that this page stays small; together they free ${amount(frees)}. <code>keepset worklist</code> has all of them.</p>`;

export const dynamicsReduced = ({ reduced }: Overview): Html | null =>
  reduced.includes('dynamics') || reduced.includes('keys')
    ? markup`<p>So that this page stays small, what differs in many ways from key to key is told as in part: nothing is promised of it.</p>`
    : null;
