import type { Overview } from '../../overview/overview.ts';
import { markup, type Html } from './html.ts';
import { listed } from './names.ts';

/** What a drawing of the plan's cues leaves out: other cues, or other versions, that were checked. */
export const plannedOnly = ({ proof }: Overview): Html | null => {
  const others = proof.cues.filter(({ change }) => change !== 'same').map(({ id }) => id);
  if (proof.of === 'plan' || others.length === 0) return null;
  return markup` This shows the cues of the plan as they were planned, not what was checked: ${listed(others)}.`;
};
