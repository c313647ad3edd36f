import type { Overview } from '../../overview/overview.ts';
import { missedStepsSaid } from '../said/missed-steps.ts';
import { markup, type Html } from './html.ts';
import { saidHtml } from './said-html.ts';

/** What leads the worklist where some of its steps are against what was checked; null: none is. */
export const missedSteps = (overview: Overview): Html | null => {
  const all = missedStepsSaid(overview);
  if (all.length === 0) return null;
  return markup`<p><b>${all.map(({ doNot, why }) => markup`${saidHtml(doNot)} ${saidHtml(why)} `)}</b>See <a href="#missing">what is missing</a>. Further down, Then counts these steps as done.</p>`;
};
