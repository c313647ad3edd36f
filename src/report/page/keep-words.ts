import type { Overview } from '../../overview/overview.ts';
import { markup, type Html } from './html.ts';
import { listed } from './names.ts';
import { plural } from './numbers.ts';

/** Why no keep file can be written of the plan; null: one can. */
export const noKeepFileWords = ({ keep: { refused } }: Pick<Overview, 'keep'>): Html | null => {
  if (refused === null) return null;
  return refused.why === 'unreadable'
    ? markup`no keep file can be written of this plan: ${listed(refused.cues)} could not be read`
    : markup`no keep file can be written of this plan: no rule says what ${plural(refused.tracks, 'track')} ${refused.tracks === 1 ? 'plays' : 'play'}`;
};
