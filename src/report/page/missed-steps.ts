import type { OverviewStep } from '../../overview/overview-steps.ts';
import type { Overview } from '../../overview/overview.ts';
import { markup, joined, type Html } from './html.ts';
import { named } from './names.ts';
import { formatCount } from './numbers.ts';

/** Numbers of steps that are named in one sentence. */
const mostNumbers = 24;

/** Steps by number, each linked to its row where it has one; null: there are none. */
export const stepLinks = ({ worklist }: Overview, steps: readonly number[]): Html | null => {
  if (steps.length === 0) return null;
  const listed = new Set(worklist.flatMap(({ actions }) => actions.map((action) => action.number)));
  const links = steps
    .slice(0, mostNumbers)
    .map((one) => (listed.has(one) ? markup`<a href="#w${one}">${one}</a>` : markup`${one}`));
  const rest = steps.length - links.length;
  return markup`${steps.length === 1 ? 'step' : 'steps'} ${joined(links, ', ')}${rest > 0 && markup` and ${formatCount(rest)} more`}`;
};

const numbersOf = ({ worklist }: Overview, missed: OverviewStep['missed']): readonly number[] =>
  worklist.flatMap(({ actions }) =>
    actions.flatMap((action) => (action.missed === missed ? [action.number] : [])),
  );

const unloads = (steps: number): string => (steps === 1 ? 'it unloads' : 'they unload');

/** What leads the worklist where some of its steps are against what was checked; null: none is. */
export const missedSteps = (overview: Overview): Html | null => {
  const certain = numbersOf(overview, 'plain');
  const inDoubt = numbersOf(overview, 'doubt');
  if (certain.length === 0 && inDoubt.length === 0) return null;
  const { cues } = overview.proof;
  const who =
    cues.length === 1
      ? markup`${named(cues[0]!.id)} needs`
      : markup`the cues that were checked need`;
  const plainly =
    certain.length > 0 &&
    markup`Do not do ${stepLinks(overview, certain)}: ${who} what ${unloads(certain.length)}. `;
  const perhaps =
    inDoubt.length > 0 &&
    markup`Do not do ${stepLinks(overview, inDoubt)} before the doubt is settled: ${who} what ${unloads(inDoubt.length)}, in doubt only. `;
  return markup`<p><b>${plainly}${perhaps}</b>See <a href="#missing">what is missing</a>. Further down, Then counts these steps as done.</p>`;
};
