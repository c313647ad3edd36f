import type { Overview } from '../../overview/overview.ts';
import { plural } from '../format.ts';
import { listedSaid, said, type Said } from './said.ts';

/** Why no keep file can be written of the plan; null: one can. */
export const noKeepFileSaid = ({ keep: { refused } }: Pick<Overview, 'keep'>): Said | null => {
  if (refused === null) return null;
  return refused.why === 'unreadable'
    ? said`no keep file can be written of this plan: ${listedSaid(refused.cues)} could not be read`
    : said`no keep file can be written of this plan: no rule says what ${plural(refused.tracks, 'track')} ${refused.tracks === 1 ? 'plays' : 'play'}`;
};
