import type { OverviewStep } from '../../overview/overview-steps.ts';
import type { Overview } from '../../overview/overview.ts';
import { formatCount } from '../format.ts';
import { joinedSaid, said, type Said } from './said.ts';

/** Numbers of steps that are named in one sentence. */
const mostNumbers = 24;

/** Steps by number; null: there are none. @example 'steps 3, 7' */
export const stepsSaid = ({ worklist }: Overview, steps: readonly number[]): Said | null => {
  if (steps.length === 0) return null;
  const listed = new Set(worklist.flatMap(({ actions }) => actions.map((action) => action.number)));
  const numbers = joinedSaid(
    steps.slice(0, mostNumbers).map((step): Said => [{ step, isListed: listed.has(step) }]),
    ', ',
  );
  const rest = steps.length - mostNumbers;
  const more = rest > 0 ? ` and ${formatCount(rest)} more` : '';
  return said`${steps.length === 1 ? 'step' : 'steps'} ${numbers}${more}`;
};

/** Steps that are not to be done, and why. */
export interface MissedSteps {
  /** Ends in a colon. */
  readonly doNot: Said;
  readonly why: Said;
}

/** Which steps of the worklist are against what was checked: plainly, then in doubt; empty: none is. */
export const missedStepsSaid = (overview: Overview): readonly MissedSteps[] => {
  const { cues } = overview.proof;
  const who =
    cues.length === 1 ? said`${{ name: cues[0]!.id }} needs` : 'the cues that were checked need';
  const certain = numbersOf(overview, 'plain');
  const inDoubt = numbersOf(overview, 'doubt');
  const [plainly, perhaps] = [stepsSaid(overview, certain), stepsSaid(overview, inDoubt)];
  return [
    ...(plainly === null
      ? []
      : [{ doNot: said`Do not do ${plainly}:`, why: said`${who} what ${unloads(certain)}.` }]),
    ...(perhaps === null
      ? []
      : [
          {
            doNot: said`Do not do ${perhaps} before the doubt is settled:`,
            why: said`${who} what ${unloads(inDoubt)}, in doubt only.`,
          },
        ]),
  ];
};

const numbersOf = ({ worklist }: Overview, missed: OverviewStep['missed']): readonly number[] =>
  worklist.flatMap(({ actions }) =>
    actions.flatMap((action) => (action.missed === missed ? [action.number] : [])),
  );

const unloads = ({ length }: readonly number[]): string =>
  length === 1 ? 'it unloads' : 'they unload';
